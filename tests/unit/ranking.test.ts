/** The order of findings, and which of two alike stays. */
import { describe, expect, test } from 'vitest';
import type { Finding, Severity } from '../../sim-core/findings/finding.ts';
import { merged, ranked } from '../../sim-core/findings/ranking.ts';

const finding = (severity: Severity, code: string, ids: string, data: object = {}, key = `${code} ${ids}`): Finding => ({
  severity,
  code,
  at: ids.split(' ').map((id) => ({ kind: 'part', id })),
  key,
  data,
});

describe('findings stand', () => {
  test('by severity, then by code', () => {
    const list = [
      finding('suggestion', 'a/a', 'R1'),
      finding('fault', 'b/b', 'R1'),
      finding('fault', 'a/b', 'R1'),
      finding('marginal', 'a/a', 'R1'),
      finding('damage-risk', 'z/z', 'R1'),
    ];
    expect(ranked(list).map((f) => `${f.severity} ${f.code}`)).toEqual([
      'damage-risk z/z',
      'fault a/b',
      'fault b/b',
      'marginal a/a',
      'suggestion a/a',
    ]);
  });
  test('by place as a person counts: figures by value, words by letter, the shorter first', () => {
    const order = (...places: string[]) =>
      ranked(places.map((p) => finding('fault', 'a/a', p))).map((f) => f.at.map((r) => r.id).join(' '));
    expect(order('D10', 'D2', 'D1', 'C3')).toEqual(['C3', 'D1', 'D2', 'D10']);
    expect(order('U1.10', 'U1.9', 'U1', 'U1.D0')).toEqual(['U1', 'U1.9', 'U1.10', 'U1.D0']);
    expect(order('R1 C2', 'R1 C10', 'R1')).toEqual(['R1', 'R1 C2', 'R1 C10']);
    expect(order('R02', 'R2', 'R1')).toEqual(['R1', 'R02', 'R2']);
  });
});

describe('of findings with one key', () => {
  const at = (measured: number, limit: number, severity: Severity = 'fault') => finding(severity, 'a/a', 'R1', { measured, limit }, 'one');
  const stays = (...list: Finding[]) => merged(list).map((f) => (f.data as { measured?: number }).measured);

  test('the one stays that is further beyond its limit, above or below; within a hundredth the first', () => {
    expect(stays(at(12, 10), at(15, 10))).toEqual([15]);
    expect(stays(at(15, 10), at(12, 10))).toEqual([15]);
    expect(stays(at(8, 10), at(2, 10), at(17, 10))).toEqual([2]);
    expect(stays(at(11, 10), at(11.009, 10))).toEqual([11]);
    expect(stays(at(11, 10), at(11.02, 10))).toEqual([11.02]);
  });
  test('the graver stays, whatever the figures', () => {
    expect(stays(at(30, 10, 'suggestion'), at(11, 10, 'fault'))).toEqual([11]);
    expect(stays(at(11, 10, 'damage-risk'), at(30, 10, 'fault'))).toEqual([11]);
  });
  test('the first stays where there are no figures', () => {
    const plain = (word: string) => finding('fault', 'a/a', 'R1', { word }, 'one');
    expect(merged([plain('x'), plain('y')]).map((f) => f.data)).toEqual([{ word: 'x' }]);
    expect(
      merged([finding('fault', 'a/a', 'R1', { measured: 5 }, 'one'), finding('fault', 'a/a', 'R1', { measured: 9, limit: 9 }, 'one')]),
    ).toHaveLength(1);
  });
  test('others are left as they are, in their order', () => {
    expect(merged([at(12, 10), finding('fault', 'b/b', 'R1'), at(15, 10)]).map((f) => f.code)).toEqual(['a/a', 'b/b']);
  });
});
