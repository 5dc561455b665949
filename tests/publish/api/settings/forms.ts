// Presses the buttons of forms as a browser does: every field with what stands in it, and what is typed over it. No test in here.

import type { Keyed } from '../../../service/keyed.ts';

const UNESCAPED: Readonly<Record<string, string>> = {
  '&amp;': '&',
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#39;': "'",
};
const plain = (text: string): string =>
  text.replaceAll(/&(?:amp|lt|gt|quot|#39);/g, (sign) => UNESCAPED[sign] ?? sign);
const attribute = (tag: string, name: string): string | undefined => {
  const found = new RegExp(`\\b${name}="([^"]*)"`).exec(tag)?.[1];
  return found === undefined ? undefined : plain(found);
};

export interface FoundForm {
  readonly action: string;
  readonly fields: Readonly<Record<string, string>>;
}

/** The forms of a page, in their order. */
export function formsIn(page: string): FoundForm[] {
  return [...page.matchAll(/<form\b[^>]*>[\s\S]*?<\/form>/g)].map(([form]) => {
    const fields: Record<string, string> = {};
    for (const [input] of form.matchAll(/<input\b[^>]*>/g)) {
      const name = attribute(input, 'name');
      const isBox = attribute(input, 'type') === 'checkbox';
      if (name !== undefined && (!isBox || / checked/.test(input)))
        fields[name] = attribute(input, 'value') ?? (isBox ? 'on' : '');
    }
    for (const [select] of form.matchAll(/<select\b[\s\S]*?<\/select>/g)) {
      const [option = ''] =
        /<option\b[^>]* selected[^>]*>/.exec(select) ?? /<option\b[^>]*>/.exec(select) ?? [];
      fields[attribute(select, 'name') ?? ''] = attribute(option, 'value') ?? '';
    }
    return { action: attribute(form, 'action') ?? '', fields };
  });
}

export interface Answered {
  readonly status: number;
  readonly body: string;
  readonly location: string | undefined;
}

export function createHand(keyed: Keyed, key: () => string) {
  const heads = () => ({ cookie: `pitward=${key()}`, 'sec-fetch-site': 'same-origin' });
  const answered = (response: Awaited<ReturnType<Keyed['service']['app']['inject']>>): Answered => ({
    status: response.statusCode,
    body: response.body,
    location: response.headers['location'] as string | undefined,
  });
  const hand = {
    open: async (url: string): Promise<Answered> =>
      answered(await keyed.service.app.inject({ url, headers: heads() })),
    /** Sends a form; what is typed as null is cleared of its tick. */
    send: async (
      { action, fields }: FoundForm,
      typed: Readonly<Record<string, string | null>> = {},
    ): Promise<Answered> => {
      const all = { ...fields, ...typed };
      const kept = Object.entries(all).filter((entry): entry is [string, string] => entry[1] !== null);
      return answered(
        await keyed.service.app.inject({
          ...{ method: 'POST', url: action, payload: new URLSearchParams(kept).toString() },
          headers: { ...heads(), 'content-type': 'application/x-www-form-urlencoded' },
        }),
      );
    },
    /** Opens a page and sends its first form. */
    type: async (url: string, typed: Readonly<Record<string, string | null>>): Promise<Answered> => {
      const [form] = formsIn((await hand.open(url)).body);
      if (!form) throw new Error(`${url} has no form`);
      return hand.send(form, typed);
    },
    /** Presses the save button of a preview. */
    save: async ({ body }: Answered): Promise<Answered> => {
      const form = formsIn(body).find(({ action }) => action.includes('/save'));
      if (!form) throw new Error(`nothing to be saved: ${body.slice(-1500)}`);
      return hand.send(form);
    },
  };
  return hand;
}
