// A morning for the board: one pit burns down, one is loaded, one may light. No test in here.

import { type Others, type Running, startRunning } from '../service/running.ts';

export const BOARD_MORNING = '2026-04-14T17:30:00Z';

export async function startBoardScene(others: Others = {}): Promise<Running> {
  const running = await startRunning(BOARD_MORNING, undefined, true, others);
  const { service, clock } = running;
  const post = async (url: string, payload: object): Promise<Record<string, unknown>> => {
    const answer = await service.app.inject({ method: 'POST', url, payload });
    if (answer.statusCode >= 300) throw new Error(`${url}: ${answer.body}`);
    return answer.json();
  };
  const tapped = (minutesAgo: number, tap: string, by: string) => ({
    ...{ tap, by },
    at: new Date(clock.nowMs - minutesAgo * 60_000).toISOString(),
  });
  const read = (site: string, windDirection: number | string, windSpeed: string) =>
    post(`/v1/sites/${site}/observations`, {
      ...{ station: 'meter', windSpeed, windDirection, relativeHumidity: '45 %', reference: 'true' },
      time: new Date(clock.nowMs - 5 * 60_000).toISOString(),
    });
  await post('/v1/sites/creek-block/burns', tapped(80, 'lit', 'Marit'));
  await read('creek-block', 210, '8 mph');
  const ridge = await post('/v1/sites/ridge-block/burns', tapped(110, 'lit', 'Teo'));
  await post(`/v1/sites/ridge-block/burns/${String(ridge['id'])}/taps`, tapped(10, 'burning-down', 'Teo'));
  await read('ridge-block', 'variable', '4 mph');
  await service.keeper.minute();
  await service.keeper.idle();
  return running;
}
