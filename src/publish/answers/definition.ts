// A definition → its published form.

import { rfc3339 } from '#core/units/local-time.ts';
import type { DefinitionAnswer } from '#publish/wire-definitions.ts';
import type { Definition } from '#store/definition.ts';

export function definitionAnswer(definition: Definition): DefinitionAnswer {
  const { kind, id, revision, body, origin, changedAtMs, changedBy } = definition;
  return { kind, id, revision, body, origin, changedAt: rfc3339(changedAtMs, 'UTC'), changedBy };
}
