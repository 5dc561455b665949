// What a phone kept for one reader is never taken as another's: it says whose page it was tapped on, and is told to sign in
// where that is somebody else.

import type { FastifyInstance } from 'fastify';
import { ServiceError } from '#errors.ts';
import { readerTag } from './reader-tag.ts';

export function guardReader(app: FastifyInstance): void {
  app.addHook('preHandler', (request, _reply, done) => {
    const said = request.headers['x-pitward-reader'];
    const { viewer } = request;
    if (said === undefined || viewer === null || said === readerTag(viewer)) return done();
    return done(
      new ServiceError('unauthorized', 'this was tapped with another key than the one that sends it'),
    );
  });
}
