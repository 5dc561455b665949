// The OpenAPI document → types for programs that use the API, by openapi-typescript.

import openapiTS, { astToString, type OpenAPI3 } from 'openapi-typescript';

/** `document`: as served at /openapi.json. The same document gives the same text. */
export async function typesOf(document: unknown): Promise<string> {
  const types = astToString(await openapiTS(document as OpenAPI3, { silent: true }));
  return `// Types of the Pitward API. Made by \`npm run client\` from the OpenAPI document; never edited by hand.\n\n${types}`;
}
