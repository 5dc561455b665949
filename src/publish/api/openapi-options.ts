// What the OpenAPI document says of the service as a whole.

import type { FastifyDynamicSwaggerOptions } from '@fastify/swagger';
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod';
import { wordsFor } from '#publish/wording/say.ts';
import { SECURITY_SCHEMES } from './declared-scopes.ts';

export const openapiOptions = (version: string): FastifyDynamicSwaggerOptions => ({
  openapi: {
    openapi: '3.1.0',
    info: {
      title: 'Pitward',
      version,
      description: `Burn windows for air-curtain pit burns. ${wordsFor('en').caution}`,
    },
    // Wherever the document itself was found.
    servers: [{ url: '/' }],
    components: { securitySchemes: SECURITY_SCHEMES },
    tags: [
      { name: 'answers', description: 'may we light, from when, until when, and why' },
      { name: 'sites', description: 'what is configured' },
      { name: 'burns', description: 'what the crew tapped' },
      { name: 'observations', description: 'what was measured at or near a site' },
      { name: 'notices', description: 'what people were told, and what they answered' },
      { name: 'events', description: 'what happened, in its order' },
      { name: 'subscriptions', description: 'programs that are sent what happens, and what became of it' },
      { name: 'definitions', description: 'sites, limit sets and orders as written, and their changes' },
      { name: 'health', description: 'whether the service can answer' },
    ],
  },
  transform: jsonSchemaTransform,
  transformObject: jsonSchemaTransformObject,
});
