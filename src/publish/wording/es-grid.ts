// The words that the forecast grid has for weather and how much of it there is, in Spanish.

/** Words of the forecast grid; one that is not here stays as the grid has it. */
const gridWords: Readonly<Record<string, string>> = {
  thunderstorms: 'tormentas eléctricas',
  dry_thunderstorms: 'tormentas eléctricas secas',
  smoke: 'humo',
  fog: 'niebla',
  freezing_fog: 'niebla helada',
  ice_fog: 'niebla de hielo',
  haze: 'calima',
  blowing_dust: 'polvo levantado por el viento',
  areas: 'por zonas',
  brief: 'por poco tiempo',
  chance: 'posible',
  definite: 'con certeza',
  few: 'en pocos lugares',
  frequent: 'a menudo',
  intermittent: 'a ratos',
  isolated: 'en lugares aislados',
  likely: 'probable',
  numerous: 'en muchos lugares',
  occasional: 'de vez en cuando',
  patchy: 'en parches',
  periods: 'por ratos',
  scattered: 'en lugares dispersos',
  slight_chance: 'poco probable',
  widespread: 'en toda la zona',
};

export const gridWord = (word: string): string => gridWords[word] ?? word.replaceAll('_', ' ');
