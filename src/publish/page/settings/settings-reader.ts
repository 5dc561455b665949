// Whoever reads the settings.

import type { Query } from '#publish/page/links.ts';
import type { Language, UnitSystem } from '#publish/wording/show.ts';

export interface SettingsReader {
  readonly language: Language;
  readonly units: UnitSystem;
  readonly query: Query;
  readonly demo: boolean;
}
