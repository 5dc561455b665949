import { describe, expect, it } from 'vitest';
import { ServiceError } from '#errors.ts';
import { replacedBy } from '#publish/access/revisions.ts';

const outcome = (headers: Record<string, string>, mayBeNew: boolean): unknown => {
  try {
    return replacedBy(headers, mayBeNew);
  } catch (fault) {
    return fault instanceof ServiceError ? fault.code : fault;
  }
};

describe('what a change replaces (RFC 9110, 13.1)', () => {
  it.each<[Record<string, string>, boolean, unknown]>([
    [{ 'if-match': '"r7"' }, true, [7]],
    [{ 'if-match': '"r7", "r8"' }, false, [7, 8]],
    [{ 'if-match': '"r7"', 'if-none-match': '*' }, true, [7]],
    [{ 'if-none-match': '*' }, true, 'new'],
    [{ 'if-none-match': ' * ' }, true, 'new'],
    // Nothing is replaced unseen: these match nothing, or say nothing.
    [{ 'if-match': 'W/"r7"' }, true, []],
    [{ 'if-match': '"7"' }, true, []],
    [{ 'if-match': 'r7' }, true, []],
    [{ 'if-match': '"r-1"' }, true, []],
    [{ 'if-match': '"r99999999999"' }, true, []],
    [{ 'if-match': '*' }, true, 'precondition_required'],
    [{ 'if-match': '*', 'if-none-match': '*' }, false, 'precondition_required'],
    [{ 'if-none-match': '*' }, false, 'precondition_required'],
    [{ 'if-none-match': '"r7"' }, true, 'precondition_required'],
    [{}, true, 'precondition_required'],
    [{}, false, 'precondition_required'],
  ])('%j, may be new %s: %j', (headers, mayBeNew, expected) => {
    expect(outcome(headers, mayBeNew)).toEqual(expected);
  });
});
