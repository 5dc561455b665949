/** What of a query was written as text: what links keep. */
export const queryText = (query: object): Record<string, string> =>
  Object.fromEntries(
    Object.entries(query).filter((entry): entry is [string, string] => typeof entry[1] === 'string'),
  );
