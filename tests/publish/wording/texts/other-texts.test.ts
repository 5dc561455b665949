// Taps, the office's matters, drills, mail, and what is sent when words fail.

import { SegmentedMessage } from 'sms-segments-calculator';
import { describe, expect, it } from 'vitest';
import type { Message, OfficeMatter } from '#core/notices/message.ts';
import type { Tap } from '#core/watch/burn.ts';
import { renderText, textFault } from '#publish/wording/texts/render-text.ts';
import { reservedWordIn } from '#publish/wording/texts/reserved-words.ts';
import type { TextRequest } from '#publish/wording/texts/text-request.ts';
import { at, es, NOW, notice, office, request, transition } from './requests.ts';

const BASE = {
  id: 'm2',
  site: 'own/pit-7',
  atMs: NOW,
  verdict: 'go',
  transitions: [],
  validUntilMs: at('14:15'),
  needsAnswer: false,
} as const;

const LONG = 'María del Carmen Fernández de Córdoba y Álvarez-Stop End “Mari”';

const text = (message: Message, more: Partial<TextRequest> = {}) => {
  const { text: said, fault } = renderText(request(message, more));
  expect(fault).toBeNull();
  expect(new SegmentedMessage(said).segmentsCount, said).toBe(1);
  expect(reservedWordIn(said), said).toBeNull();
  return said;
};

describe('what the crew did', () => {
  const tap = (of: Tap, by = 'Ana'): Message => ({
    ...BASE,
    kind: 'burn',
    tap: { burn: 'b1', tap: of, tappedAtMs: at('13:40'), by, pit: null },
  });

  it.each([
    ['lit', 'Pit lit at 1:40 pm, told by Ana.', 'Fosa encendida, 1:40 pm, dicho por Ana.'],
    ['charging', 'Wood goes in since 1:40 pm, told by Ana.', 'Echando leña, 1:40 pm, dicho por Ana.'],
    [
      'burning-down',
      'Last wood in, burning down at 1:40 pm, told by Ana.',
      'Ultima leña echada, se consume, 1:40 pm, dicho por Ana.',
    ],
    ['covered', 'Pit covered at 1:40 pm, told by Ana.', 'Fosa tapada, 1:40 pm, dicho por Ana.'],
    [
      'put-out-early',
      'Pit put out early at 1:40 pm, told by Ana.',
      'Fosa apagada antes de tiempo, 1:40 pm, dicho por Ana.',
    ],
  ] as const)('%s: %s', (of, english, spanish) => {
    expect(text(tap(of), { reader: office })).toContain(`Pit 7: ${english}`);
    expect(text(tap(of), { reader: es })).toContain(`Pit 7: ${spanish}`);
    text(tap(of, LONG), { reader: es, site: { name: LONG, timeZone: 'America/Denver' }, asked: true });
  });
});

describe('what the office must see to', () => {
  const matter = (what: OfficeMatter['what'], contact: string | null = 'ana'): Message => ({
    ...BASE,
    kind: 'office',
    matter: { what, contact, about: null, detail: null },
  });

  it('what somebody wrote is quoted, in one segment, and none of its words is one to leave by', () => {
    const wrote = (detail: string): Message => ({
      ...BASE,
      kind: 'office',
      matter: { what: 'wrote', contact: 'ana', about: null, detail },
    });
    const said = (detail: string) => text(wrote(detail), { reader: office, contactName: 'Ana' });
    expect(said('fire jumped the berm')).toContain('SEE TO IT. Ana writes: "fire jumped the berm"');
    expect(said('please stop texting')).toContain('Ana writes: "please sto\'p texting"');
    expect(said(`${'far '.repeat(200)}to go`)).toMatch(/far far.*\.\.go"/);
  });

  it.each([
    ['opted-out', 'Ana wants no more texts: reach them another way.'],
    ['opted-in', 'Ana gets texts again.'],
    ['not-delivered', 'A warning did not reach Ana: call them.'],
    ['not-answered', 'Ana does not answer a warning: call them.'],
  ] as const)('%s: %s', (what, said) => {
    expect(text(matter(what), { reader: office, contactName: 'Ana' })).toContain(`Pit 7: SEE TO IT. ${said}`);
    for (const reader of [office, { ...office, language: 'es' as const }])
      text(matter(what), {
        reader,
        contactName: LONG,
        asked: true,
        site: { name: LONG, timeZone: 'America/Denver' },
      });
  });

  it('nobody answers at all', () => {
    expect(text(matter('not-answered', null), { reader: office })).toContain(
      'Nobody answers a warning: call the crew.',
    );
  });
});

it('a drill says that it is one, first', () => {
  const drill: Message = { ...BASE, kind: 'drill', needsAnswer: true };
  expect(text(drill)).toBe(
    'Pit 7: DRILL. Nothing has happened. We only see whether texts reach you. Answer 1=got it, 2=cannot, call me. Crew on site decides. Valid until 2:15 pm.',
  );
  expect(text(drill, { reader: es })).toMatch(/^Pit 7: SIMULACRO\. No ha pasado nada\./);
});

describe('mail', () => {
  const rendered = renderText(
    request(
      notice([
        transition(),
        transition({
          code: 'forecast-stale',
          basis: 'forecast',
          verdict: 'hold',
          figures: { wasMs: at('03:10') },
        }),
      ]),
      {
        site: { name: 'Pit <7> & “B”', timeZone: 'America/Denver' },
        reader: { language: 'es', units: 'us', role: 'office' },
        answerUrl: 'https://pitward.example/a?m=1&t=x',
      },
    ),
  );

  it('has the order and the worst in its subject, all sentences with accents and the whole caution in its body', () => {
    expect(rendered.subject).toBe(
      'Pit <7> & “B”: A la cuadrilla: APAGUEN YA. Medido: ráfaga 31 mph, 1:42 pm (pit), límite 25 mph (permit).',
    );
    for (const line of [
      'Medido: ráfaga 31 mph, 1:42 pm (pit), límite 25 mph (permit).',
      'Sin pronóstico nuevo desde 3:10 am: decidan a ojo.',
      'El humo va al noroeste.',
      'Responda aquí: https://pitward.example/a?m=1&t=x',
      'Vale hasta 2:15 pm.',
      'Un pronóstico no es un permiso',
    ])
      expect(rendered.body).toContain(line);
  });

  it('cannot be given markup by a name, and links only to where the answer goes', () => {
    expect(rendered.html).toContain('Pit &lt;7&gt; &amp; “B”');
    expect(rendered.html).toContain('<a href="https://pitward.example/a?m=1&amp;t=x">');
    expect(rendered.html.match(/<a /g)?.length).toBe(1);
    const hostile = renderText(
      request(notice([transition()]), {
        site: { name: '<script>x</script>"\'\r\nBcc: a@b', timeZone: 'America/Denver' },
      }),
    );
    expect(hostile.html).not.toMatch(/<script|<img/);
    expect(hostile.subject).not.toMatch(/[\r\n]/);
  });
});

describe('where words fail', () => {
  const broken = { ...transition(), condition: null } as never;

  it('a fixed text goes out with what is demanded, and it is told that it did', () => {
    for (const [reader, order] of [
      [{ language: 'en', units: 'us', role: 'crew' }, 'PUT IT OUT'],
      [es, 'APAGUEN YA'],
    ] as const) {
      const said = renderText(request({ ...notice([broken]), verdict: 'stop' }, { reader }));
      expect(said.fault).not.toBeNull();
      expect(said.text).toContain(`Pitward: ${order}. `);
      expect(said.body.trim()).toBe(said.text);
      expect(new SegmentedMessage(said.text).segmentsCount).toBe(1);
      expect(new SegmentedMessage(said.text).encodingName).toBe('GSM-7');
      expect(reservedWordIn(said.text)).toBeNull();
    }
  });

  it.each([
    ['no transitions', { ...notice([]), transitions: [] }],
    ['a clock that is none', { ...notice([transition()]), validUntilMs: Number.NaN }],
  ])('%s', (_what, message) => {
    const said = renderText(request(message as Message));
    expect(said.fault).not.toBeNull();
    expect(said.text).toMatch(/^Pitward: /);
  });

  it('a zone that is none, a reader of no language, a request that is none', () => {
    for (const wanted of [
      request(notice([transition()]), { site: { name: 'Pit 7', timeZone: 'Nowhere/None' } }),
      request(notice([transition()]), { reader: { language: 'fr' } as never }),
      {} as TextRequest,
    ]) {
      const said = renderText(wanted);
      expect(said.fault).not.toBeNull();
      expect(said.text).toMatch(/^Pitward: (PUT IT OUT|NO WOOD)\. /);
    }
  });

  it('a text that could not be sent as it is, is a fault', () => {
    expect(textFault('x'.repeat(161))).toBe('161 septets');
    expect(textFault('á')).toBe('not in the alphabet');
    expect(textFault(' ')).toBe('empty');
    expect(textFault('Reply STOP to leave')).toBe('reserved word "stop"');
    expect(textFault('Pit 7: PUT IT OUT.')).toBeNull();
  });
});
