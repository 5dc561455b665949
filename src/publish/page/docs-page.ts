// The API for people, written from its OpenAPI document. In English, as the document; whatever is missing is left out.

import { asObject, asText, exampleOf, type Json, listOf, namedFrom, schemaList } from './docs-schema.ts';
import { html, type Markup, type Piece } from './html.ts';
import { page } from './shell.ts';

const METHODS = ['get', 'post', 'put', 'patch', 'delete', 'head', 'options'];

/** `openapi`: the document as served; anything else gives a page that says that it is empty. */
export function docsPage(openapi: unknown, demo: boolean): string {
  const root = asObject(openapi);
  const info = asObject(root['info']);
  const operations = Object.entries(asObject(root['paths'])).flatMap(([path, item]) =>
    operationsOf(path, asObject(item)),
  );
  const title = `${asText(info['title']) ?? 'API'}, API ${asText(info['version']) ?? ''}`.trim();
  const all = asObject(asObject(root['components'])['schemas']);
  const named = namedFrom(root['paths'], all);
  const schemas = Object.entries(all).filter(([name]) => named.has(name));
  return page({
    title,
    language: 'en',
    demo,
    choice: null,
    zone: null,
    isHome: false,
    main: html`<div class="doc"><h1 class="all">${title}</h1>${paragraph(info['description'])}<p><a class="tap" href="/openapi.json">openapi.json</a></p>
${contents(operations)}${operations.map((o) => operationSection(o))}
${operations.length === 0 ? html`<p>The document names no path.</p>` : null}
${schemas.length > 0 ? html`<h2>Schemas</h2>${schemas.map(([name, schema]) => schemaSection(name, schema))}` : null}</div>`,
  });
}

interface Operation {
  readonly id: string;
  readonly path: string;
  readonly method: string;
  readonly spec: Json;
  readonly parameters: readonly Json[];
}

function operationsOf(path: string, item: Json): Operation[] {
  return METHODS.filter((method) => Object.hasOwn(item, method)).map((method) => {
    const spec = asObject(item[method]);
    const parameters = [...listOf(item['parameters']), ...listOf(spec['parameters'])].map(asObject);
    return {
      id: `${method}${path.replaceAll(/[^a-z0-9]+/gi, '-')}`,
      path,
      method: method.toUpperCase(),
      spec,
      parameters,
    };
  });
}

const paragraph = (text: Json[string]): Markup | null =>
  asText(text) === null ? null : html`<p>${asText(text)}</p>`;

function contents(operations: readonly Operation[]): Markup | null {
  if (operations.length === 0) return null;
  const links = operations.map(
    (o) => html`<li><a class="tap" href="#${o.id}"><code>${o.method} ${o.path}</code></a></li>`,
  );
  return html`<nav aria-label="Paths"><ul>${links}</ul></nav>`;
}

function operationSection({ id, method, path, spec, parameters }: Operation): Markup {
  const summary = asText(spec['summary']);
  const body = asObject(spec['requestBody']);
  const responses = Object.entries(asObject(spec['responses']));
  return html`<h2 id="${id}"><code>${method} ${path}</code></h2>${summary === null ? null : html`<p><b>${summary}</b></p>`}${paragraph(spec['description'])}
${parameters.length > 0 ? html`<h3>Parameters</h3><ul>${parameters.map(parameterItem)}</ul>` : null}
${Object.keys(body).length > 0 ? html`<h3>Body</h3>${paragraph(body['description'])}${contentOf(body)}` : null}
${responses.length > 0 ? html`<h3>Answers</h3>${responses.map(([status, answer]) => answerItem(status, asObject(answer)))}` : null}`;
}

function parameterItem(parameter: Json): Markup {
  const { name, description, required } = parameter;
  const where = asText(parameter['in']);
  const note: Piece = required === true ? html` <b>required</b>` : null;
  const about = asText(description) ?? asText(asObject(parameter['schema'])['description']);
  const { description: _, ...schema } = asObject(parameter['schema']);
  return html`<li><code>${asText(name) ?? '?'}</code>${where === null ? null : html` in ${where}`}${note}${about === null ? null : html`: ${about}`}${schemaList(schema)}${exampleOf(parameter)}</li>`;
}

function answerItem(status: string, answer: Json): Markup {
  const about = asText(answer['description']);
  const plain = about === null || about === 'Default Response' ? null : html` ${about}`;
  return html`<details class="sub"><summary><code>${status}</code>${plain}</summary>${contentOf(answer)}</details>`;
}

function contentOf(holder: Json): Markup[] {
  return Object.entries(asObject(holder['content'])).map(([type, found]) => {
    const media = asObject(found);
    return html`<p><code>${type}</code></p>${schemaList(media['schema'])}${exampleOf(media)}`;
  });
}

const schemaSection = (name: string, schema: unknown): Markup =>
  html`<h3 id="schema-${name}"><code>${name}</code></h3>${schemaList(schema)}${exampleOf(asObject(schema))}`;
