// Help texts: examples first.

import type { Verb } from './arguments.ts';

export const SHORT_HELP = `Pitward says when an air-curtain pit may be lit, when the last charge goes in, when it must be covered, and why.

  pitward plan north-block --day tomorrow     the three times of a day
  pitward windows north-block --day tomorrow  go, hold and stop through the day
  pitward check north-block                   may we light now? exit 0 only for go
  pitward serve                               the service: REST API and pages
  pitward check-config                        all faults of the configuration at once
  pitward key new --name Ana --role crew      a key with its personal link; work: a share of the pulls (PostgreSQL)
  pitward recall north-block --now INSTANT    what the plan said at a moment that is past
  pitward save north-block > saved.json       a forecast to replay later
  pitward backup pitward.backup               all that is remembered, in one file
  pitward restore pitward.backup              a new store from it
  pitward play                                a simulated shift of the demo: the wind turns, and who is told

Every command takes --help. --demo runs on invented sites; without it the configuration is pitward.yaml.
A forecast is not a permit: your permit, burn bans, the fire authority and the eye on site decide.`;

/** Of what answers in words alone. */
const NO_DECISION = `Ends with 0 whenever it answers, for stop as for go: only "pitward check" decides by its exit code (0 for go alone).
It goes by the store where there is one, as check does.`;

const GOES_BY = `Where the service has a store (DATABASE_URL, or store.file), it goes by the orders, limits and sites in force there.`;

const COMMON = `  -c, --config FILE   configuration (default pitward.yaml, or PITWARD_CONFIG)
      --demo          invented sites and an invented forecast
      --at LAT,LON    a place that is in no configuration; --limits NAME chooses its limit set
      --limits NAME   limit set for --at; not needed where there is one alone
      --forecast FILE a forecast saved with "pitward save", instead of a live pull
      --alerts FILE   official alerts to go with --forecast, where it is a bare grid document
      --now INSTANT   judge as of this moment (RFC 3339 with offset); for saved forecasts and what-if
      --json          one JSON document on standard output, as the API gives it
      --units us|si   --lang en|es   --no-color`;

export const HELP: Readonly<Record<Verb, string>> = {
  serve: `pitward serve --config pitward.yaml --port 8080
pitward serve --demo

Serves the REST API and the pages on 127.0.0.1. A busy port is said; the demo then takes the next free one.

  -c, --config FILE   configuration (default pitward.yaml, or PITWARD_CONFIG)
      --demo          invented sites and an invented forecast, marked DEMO everywhere
  -p, --port PORT     port to listen on (default PORT from the environment, else 8080)
      --answers-only  with DATABASE_URL: leave pulling and planning to others, but for what-ifs elsewhere
      --go-back       take a configuration file although another has replaced it since`,
  windows: `pitward windows north-block --day tomorrow
pitward windows --at 38.97,-92.33 --limits orchard --json

Go, hold and stop through a day, or from --from to --to (dates or RFC 3339 instants), with all reasons.
${NO_DECISION}

      --day DAY       today (default), tomorrow or YYYY-MM-DD, in the time of the site
${COMMON}`,
  plan: `pitward plan north-block --day tomorrow
pitward plan north-block --forecast saved.json --now 2026-03-02T18:00:00-06:00

Light-up, last charge and covered by, why each is what it is, and what would change it.
${NO_DECISION}

      --day DAY       today (default), tomorrow or YYYY-MM-DD, in the time of the site
${COMMON}`,
  check: `pitward check north-block && echo "may light"
pitward check north-block --day tomorrow

May we light now? With --day: has that day a window? Ends with 0 only for go,
10 for hold (also where it is too late to light), 11 for stop, 12 where nobody can say (also where the source or the store
gives no answer), 2 for wrong usage.
${GOES_BY}

      --day DAY       today, tomorrow or YYYY-MM-DD, in the time of the site
${COMMON}`,
  'check-config': `pitward check-config
pitward check-config --config pitward.yaml

Lists every fault of a configuration with its path; ends with 0 where there is none, else with 1. Where a store is there already,
it shows what the next start would change by this file: + new, ~ changed, - taken out. Nothing applies.

  -c, --config FILE   configuration (default pitward.yaml, or PITWARD_CONFIG)
      --json          the faults as JSON`,
  save: `pitward save north-block > saved.json
pitward save --at 38.97,-92.33 > saved.json

Pulls the forecast and the official alerts of a place once and writes them as received, for --forecast.`,
  recall: `pitward recall north-block --now 2026-03-02T05:10:00-06:00

The plan of a site as it was at a moment, made again from the store: the forecast document, the official alerts, the limits
and orders of that time. Refuses where it would not come out the same to the byte.

  -c, --config FILE   configuration (default pitward.yaml, or PITWARD_CONFIG); names the store, or DATABASE_URL does
      --now INSTANT   the moment (RFC 3339 with offset; default: now)
      --day DATE      another day of that plan than its first
      --json          one JSON document on standard output, as the API gives it
      --units us|si   --lang en|es   --no-color`,
  key: `pitward key new --name Ana --role crew --sites north-block --link https://pits.example
pitward key new --name office --scopes read,admin
pitward key new --name Ana --calendar --sites north-block
pitward key list
pitward key rotate PREFIX
pitward key revoke PREFIX

Keys by which people and other machines may ask. A service that others can reach refuses to start without one. The key goes to
standard output once, and is kept as a digest only; with --link the personal link too: opened on a telephone, it signs that
telephone in at the press of a button.

      --name NAME     who will use it
      --role ROLE     crew (read, observe, burn), office (and notify), dispatch (read, notify), admin; instead of --scopes
      --link ADDRESS  where people reach the service; prints the personal link (with --role also where listen.publicUrl is set)
      --calendar      a key that opens the calendar of go windows and nothing else; prints the calendar's address (with --link,
                      or where listen.publicUrl is set): who has it may read, so revoke the key where it got about
      --lang en|es    language of the page, or the calendar, to which the link leads
      --scopes LIST   read, observe, burn, notify, order, calendar, admin (default: read); admin may all
      --sites LIST    ids of the sites that it may see (default: all)
      --organisation ORGANISATION   whose sites (default: the configuration's)
      --expires END   a date such as 2027-01-31, or days such as 90d (default: no end)
      --ends END      rotate: when the old key ends (default: 7d)
  -c, --config FILE   configuration (default pitward.yaml, or PITWARD_CONFIG); names the store, or DATABASE_URL does
      --json          one JSON document on standard output`,
  work: `DATABASE_URL=postgres://... pitward work

Pulls forecasts and alerts and makes plans, and answers nobody: any number of them share the work over one PostgreSQL, beside
any number of "pitward serve" (with --answers-only where those are to take no share of it).

  -c, --config FILE   configuration (default pitward.yaml, or PITWARD_CONFIG)
      --go-back       take a configuration file although another has replaced it since`,
  backup: `pitward backup pitward-2026-03-02.backup

Writes all that is remembered to a new file, as of one moment, while the service goes on. The file can be restored into
either kind of store, so that a laptop can move to a database server. Keep it as you keep keys: it names who may ask.

  -c, --config FILE   configuration (default pitward.yaml, or PITWARD_CONFIG), whose store.file is read
The database that DATABASE_URL names comes before store.file.`,
  restore: `pitward restore pitward-2026-03-02.backup
DATABASE_URL=postgres://… pitward restore pitward-2026-03-02.backup

Fills an empty store from a backup: all of it, or nothing where the file is not whole. Nothing may be serving from it.

  -c, --config FILE   configuration (default pitward.yaml, or PITWARD_CONFIG), whose store.file is made
The database that DATABASE_URL names comes before store.file.`,
  play: `pitward play
pitward play --seed 7 --lang es

A simulated shift of the demo, much faster than real time, on the real watch: the crew lights, the wind turns, the text goes
out, is not answered, goes on to the next, is answered, and the pit is covered. No text leaves this machine. The page
/demo/play of "pitward serve --demo" shows the same.

      --seed N        1 (default) to 9999; the same number plays the same shift
      --demo          may be written, and changes nothing: nothing but the demo is played
      --json          one JSON document on standard output
      --units us|si   --lang en|es   --no-color`,
};
