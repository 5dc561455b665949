// All routes of the watch.

import type { FastifyInstance } from 'fastify';
import type { SayCondition } from '#publish/answers/now.ts';
import type { PlanDesk } from '#publish/desk.ts';
import type { WatchDesk } from '#publish/watch-desk.ts';
import { addAnswerLinks, addInboundRoute } from './answer-links.ts';
import { addBurnIncident } from './burn-incident.ts';
import { addBurnRoutes } from './burns.ts';
import { addLiveRoutes } from './live.ts';
import { addMapRoutes } from './maps.ts';
import { addNowStream } from './now-stream.ts';
import type { NowStreams } from './now-streams.ts';
import { addObservationRoutes } from './observations.ts';
import { guardReader } from './reader-guard.ts';
import { addReceiptRoute } from './receipts.ts';
import { addSilenceRoutes } from './silences.ts';
import { addSiteCsv } from './site-csv.ts';
import { addSmokeSources } from './smoke-sources.ts';

export interface WatchingParts {
  readonly desk: WatchDesk;
  readonly say: SayCondition;
}

export interface StreamedParts extends WatchingParts {
  readonly streams: NowStreams;
}

export function addWatchRoutes(
  app: FastifyInstance,
  desk: PlanDesk,
  { desk: watch, say, streams }: StreamedParts,
  headersOfPages: Readonly<Record<string, string>>,
): void {
  guardReader(app);
  addBurnRoutes(app, desk, watch);
  addBurnIncident(app, desk, watch);
  addObservationRoutes(app, desk, watch);
  addLiveRoutes(app, { desk, watch, say });
  addNowStream(app, desk, streams);
  addSilenceRoutes(app, desk, watch);
  addInboundRoute(app, desk, watch);
  addReceiptRoute(app, desk, watch);
  addSmokeSources(app, desk, watch);
  addSiteCsv(app, desk, watch);
  addMapRoutes(app, desk, { desk: watch, say });
  addAnswerLinks(app, desk, watch, headersOfPages);
}
