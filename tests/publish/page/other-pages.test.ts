import { describe, expect, it } from 'vitest';
import { docsPage } from '#publish/page/docs-page.ts';
import { type HomeView, homePage } from '#publish/page/home-page.ts';
import { problemPage } from '#publish/page/problem-page.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import { english } from '#publish/wording/en.ts';
import { spanish } from '#publish/wording/es.ts';
import { homeOf, homeRow, NO_FORECAST, STORIES } from './invented-days.ts';
import { hasWord, partOf, wordsOf } from './read-page.ts';

const liveAnswer = (): NowAnswer => ({
  site: 'heron-bend-2',
  name: 'Heron Bend, pit 2',
  timeZone: 'America/New_York',
  asOf: '2026-11-25T10:10:00-05:00',
  verdict: 'go',
  unknown: false,
  whatToDo: 'May light.',
  text: 'May light.',
  planVerdict: 'go',
  burn: null,
  lightUp: null,
  lastCharge: null,
  coveredBy: null,
  observation: null,
  conditions: [],
  silences: [],
  notices: [],
  forecastMadeAt: null,
  goodUntil: '2026-11-25T10:20:00-05:00',
  demo: true,
  caution: '',
});

/** The rows of the list; above them every word is counted. */
const rowsOf = (page: string): string => partOf(page, '<ul class="rows sites">', '<footer>');

const HOSTILE = `"><script>alert('1')</script>`;

const home = (more: Partial<HomeView> = {}): HomeView =>
  homeOf(
    [
      homeRow('heron-bend-2', { ...STORIES.go, clock: '08:00' }),
      homeRow('heron-bend-1', { ...STORIES.holdDay, name: 'Heron Bend, pit 1' }),
      homeRow('old-mill', { ...STORIES.stale, name: 'Old mill field' }),
      {
        id: 'sorrel',
        name: 'Sorrel flat',
        timeZone: null,
        forecast: NO_FORECAST,
        live: null,
        now: null,
        today: null,
        tomorrow: null,
        needs: [],
        moved: [],
        crew: undefined,
      },
    ],
    more,
  );

describe('the list of sites', () => {
  it('shows no go today where it is too late to light, and says so', () => {
    const late = homePage(home({ sites: [homeRow('a', { ...STORIES.over, clock: '13:20' })] }));
    expect(late).toContain('Too late to light');
    expect(homePage(home({ sites: [homeRow('a', { ...STORIES.over, clock: '09:30' })] }))).not.toContain(
      'Too late',
    );
  });

  it('has the three times of a go and the first reason of a hold', () => {
    const page = wordsOf(homePage(home()));
    expect(page).toContain('GO Light-up from 9:00 am, last charge 1:30 pm, covered by 3:00 pm.');
    expect(page).toContain('HOLD Tightest: mixing height 1,400 ft at 8:00 am, 240 ft beyond');
    expect(page).toContain('Forecast made Tue, Nov 24, 7:13 am (47 min old).');
  });

  it('says of a site without a forecast that it cannot say, and why', () => {
    const page = wordsOf(homePage(home()));
    expect(page).toContain(
      "Sorrel flat CAN'T SAY No forecast at hand. The last try to get a forecast failed, Tue, Nov 24, 9:50 pm UTC: the forecast source did not answer in 10 s",
    );
  });

  it('shows no go that a stale or missing forecast once gave', () => {
    const [row] = home().sites;
    if (!row) throw new Error('no site');
    const old = { ...row, forecast: { ...row.forecast, state: 'stale' as const } };
    expect(hasWord(rowsOf(homePage(home({ sites: [row] }))), 'GO')).toBe(true);
    expect(hasWord(rowsOf(homePage(home({ sites: [old] }))), 'GO')).toBe(false);
  });

  it('says of each site what stands now', () => {
    const burn = {
      id: 'b1',
      site: 'heron-bend-2',
      state: 'charging' as const,
      openedAt: '2026-11-25T09:05:00-05:00',
      litAt: '2026-11-25T09:05:00-05:00',
      since: '2026-11-25T09:25:00-05:00',
      closedAt: null,
      incidentRef: null,
      briefedFrom: 210,
      briefings: [],
      taps: [],
    };
    const row = (id: string, change: Partial<NowAnswer>) => ({
      ...homeRow(id, { ...STORIES.go, now: '2026-11-25', clock: '10:10' }),
      name: id,
      live: { ...liveAnswer(), ...change },
    });
    const shown = homePage(
      home({
        sites: [
          row('Calm flat', { verdict: 'go', text: 'Every limit is met.' }),
          row('Mill', { verdict: 'hold', text: 'Humidity 20 %.' }),
          row('Bend', { verdict: 'go', text: 'Every limit is met.', burn }),
          row('Ridge', { verdict: 'stop', text: 'Smoke goes to the school.', burn }),
          row('Dell', { verdict: 'hold', unknown: true, text: 'Nobody can say.', burn }),
        ],
      }),
    );
    const text = wordsOf(shown);
    expect(text).toContain('Now STOP Charging, since 9:25 am. Smoke goes to the school.');
    expect(text).toContain('Now HOLD Humidity 20 %.');
    expect(text).toContain("Now CAN'T SAY Charging, since 9:25 am. Nobody can say.");
    // While it burns, today says no go that the watch does not say.
    const ridge = text.slice(text.indexOf('Ridge'), text.indexOf('Dell'));
    expect(ridge).toMatch(/Today Wed, Nov 25 STOP/);
    expect(text).toMatch(/Mill Now HOLD.*Today Wed, Nov 25 GO/);
  });

  it('says so where there is no site', () => {
    expect(wordsOf(homePage(homeOf([])))).toContain(english.labels.noSites);
  });

  it('keeps the choices of the reader in its links', () => {
    const page = homePage(
      home({ reader: { language: 'es', units: 'si' }, query: { lang: 'es', units: 'si' } }),
    );
    expect(page).toContain('href="/sites/sorrel?lang=es&amp;units=si"');
    expect(wordsOf(page)).toContain(spanish.labels.allSites);
  });
});

describe('a problem for a browser', () => {
  const view = {
    status: 503,
    title: 'No forecast at hand yet',
    detail: HOSTILE,
    demo: true,
    language: 'en' as const,
  };

  it('says that nobody can say, and that this is no go', () => {
    const page = wordsOf(problemPage(view));
    expect(page).toContain(`CAN'T SAY ${english.orders.hold}`);
    expect(page).toContain(HOSTILE);
    expect(wordsOf(problemPage({ ...view, status: 404 }))).not.toContain("CAN'T SAY");
  });
});

describe('the documentation of the API', () => {
  const document = {
    info: { title: 'Pitward', version: '0.1.0', description: HOSTILE },
    paths: {
      '/v1/sites/{id}/plan': {
        get: {
          summary: 'The plan of a day',
          parameters: [
            { name: 'id', in: 'path', required: true, schema: { type: 'string' } },
            {
              name: 'units',
              in: 'query',
              schema: { type: 'string', enum: ['us', 'si'], description: 'which units' },
            },
          ],
          responses: {
            200: {
              description: 'the plan',
              content: {
                'application/json': {
                  schema: { $ref: '#/components/schemas/Plan' },
                  example: { verdict: 'go' },
                },
              },
            },
          },
        },
      },
    },
    components: {
      schemas: {
        Plan: {
          type: 'object',
          required: ['verdict'],
          properties: {
            verdict: { enum: ['go', 'hold'] },
            next: { $ref: '#/components/schemas/Plan' },
            at: { anyOf: [{ type: 'string' }, { type: 'null' }], description: 'when' },
          },
        },
        Unused: { type: 'string' },
      },
    },
  };

  it('has paths, parameters, answers and the schemas that they lead to', () => {
    const page = wordsOf(docsPage(document, true));
    for (const text of [
      'GET /v1/sites/{id}/plan',
      'The plan of a day',
      'id in path required',
      'units in query: which units',
      '"us" | "si"',
      'the plan',
      '"verdict": "go"',
      'verdict "go" | "hold"',
      'at string or null: when, may be left out',
    ]) {
      expect(page).toContain(text);
    }
    expect(page).not.toContain('Unused');
  });

  it('escapes what the document says, and ends on schemas that contain themselves', () => {
    const page = docsPage(document, true);
    expect(page).not.toContain('<script');
    expect(page.match(/id="schema-Plan"/g)).toHaveLength(1);
  });

  it.each([
    [null],
    [undefined],
    ['text'],
    [[]],
    [{}],
    [{ paths: null }],
    [{ paths: { '/x': { get: null } } }],
    [{ paths: { '/x': { get: { parameters: 'no', responses: { 200: 3 } } } } }],
  ])('bears a document that is %j', (broken) => {
    expect(wordsOf(docsPage(broken, true))).toContain(english.caution);
  });
});

describe('every page', () => {
  const pages: [string, (demo: boolean) => string][] = [
    ['the list of sites', (demo) => homePage(home({ demo }))],
    ['a problem', (demo) => problemPage({ status: 500, title: 'Fault', detail: 'x', demo, language: 'en' })],
    ['the documentation', (demo) => docsPage({}, demo)],
  ];

  it.each(pages)('%s carries the caution always and the demo band in a demo', (_, make) => {
    expect(wordsOf(make(true))).toContain(english.demo);
    expect(wordsOf(make(false))).not.toContain(english.demo);
    expect(wordsOf(make(false))).toContain(english.caution);
    expect(make(true)).toMatch(/^<!doctype html><html lang="en"/);
    expect(make(true).match(/<h1/g)).toHaveLength(1);
    expect(make(true)).not.toContain('<script');
  });
});
