// Turns that wait in memory: none at once with itself, pulls a few at a time, and nothing else waits behind them.

import { describe, expect, it } from 'vitest';
import { createQueueHere } from '#jobs/queue-here.ts';
import { fakeTaker, turnOf } from './fake-taker.ts';

function queueOf() {
  const taker = fakeTaker();
  const warned: object[] = [];
  const log = { info: () => undefined, warn: (facts: object) => void warned.push(facts) };
  return { taker, warned, queue: createQueueHere(taker, log) };
}

const cells = (count: number, cycle = 60) =>
  Array.from({ length: count }, (_, i) => turnOf('pull', `A ${i},1`, cycle));

describe('turns in memory', () => {
  it('begin four pulls at once, and the next when one has ended', async () => {
    const { queue, taker } = queueOf();
    await queue.send(cells(6));
    expect([taker.begun.length, queue.running(), queue.waiting()]).toEqual([4, 4, 2]);
    await taker.end('pull A 2,1');
    expect(taker.begun.at(-1)).toBe('pull A 4,1 @60');
    expect([queue.running(), queue.waiting()]).toEqual([4, 1]);
  });

  it('that are no pulls do not wait for pulls', async () => {
    const { queue, taker } = queueOf();
    await queue.send([...cells(9), turnOf('alerts'), turnOf('plan'), turnOf('locate', '1,2')]);
    expect(taker.begun.slice(4)).toEqual(['alerts @60', 'plan @60']);
    expect(queue.waiting()).toBe(6);
  });

  it('are not begun again while they are under way, and of those that wait the newest cycle is done', async () => {
    const { queue, taker } = queueOf();
    await queue.send(cells(5, 60));
    await queue.send(cells(5, 120));
    expect(taker.begun).toHaveLength(4);
    await taker.end('pull A 0,1');
    expect(taker.begun.at(-1)).toBe('pull A 4,1 @120');
    // What was under way can be sent again once it has ended.
    await queue.send(cells(1, 180));
    await taker.end('pull A 1,1');
    expect(taker.begun.at(-1)).toBe('pull A 0,1 @180');
  });

  it('that fail are said and make room; the next sending tries them again', async () => {
    const { queue, taker, warned } = queueOf();
    await queue.send(cells(1));
    await taker.end('pull A 0,1', new Error('no answer'));
    expect(warned).toEqual([{ kind: 'pull', subject: 'A 0,1', cycle: 60, fault: 'no answer' }]);
    expect(queue.running()).toBe(0);
    await queue.send(cells(1));
    expect(taker.begun).toEqual(['pull A 0,1 @60', 'pull A 0,1 @60']);
  });

  it('are all done when idle, and idle at once where there is nothing to do', async () => {
    const { queue, taker } = queueOf();
    await queue.idle();
    await queue.send(cells(5));
    let isIdle = false;
    const idle = queue.idle().then(() => {
      isIdle = true;
    });
    for (const i of [0, 1, 2, 3]) await taker.end(`pull A ${i},1`);
    expect(isIdle).toBe(false);
    await taker.end('pull A 4,1');
    await idle;
    expect(isIdle).toBe(true);
  });

  it('are called off at the end, which waits for them; none begins after, and whoever waits is let go', async () => {
    const { queue, taker, warned } = queueOf();
    await queue.send(cells(6));
    const idle = queue.idle();
    await queue.stop();
    await idle;
    expect([queue.running(), queue.waiting(), taker.begun.length]).toEqual([0, 0, 4]);
    await queue.send(cells(2, 120));
    await queue.idle();
    expect(taker.begun).toHaveLength(4);
    // An end that was asked for is no fault.
    expect(warned).toEqual([]);
  });
});
