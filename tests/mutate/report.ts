/** What is printed: a table by rooms, and every mutant that no test noticed. */
import type { Fate, Verdict } from './mutant.ts';

const FATES: readonly Fate[] = ['killed', 'timed out', 'survived', 'not covered', 'equivalent'];

/** Of those that can be noticed [%]. Mutants that hang a test count as noticed: the test would not pass. */
export function killedShare(verdicts: readonly Verdict[]): number {
  const noticed = verdicts.filter((v) => v.fate === 'killed' || v.fate === 'timed out').length;
  const real = verdicts.filter((v) => v.fate !== 'equivalent').length;
  return real === 0 ? 100 : (noticed / real) * 100;
}

export function table(rooms: readonly string[], verdicts: readonly Verdict[]): string {
  const row = (name: string, list: readonly Verdict[]) => [
    name,
    String(list.length),
    ...FATES.map((fate) => String(list.filter((v) => v.fate === fate).length)),
    `${killedShare(list).toFixed(1)} %`,
  ];
  const rows = [
    ['room', 'mutants', ...FATES, 'noticed'],
    ...rooms.map((room) =>
      row(
        room,
        verdicts.filter((v) => v.mutant.room === room),
      ),
    ),
    row('all', verdicts),
  ];
  const widths = rows[0]?.map((_, i) => Math.max(...rows.map((r) => (r[i] ?? '').length))) ?? [];
  return rows.map((r) => r.map((cell, i) => (i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0))).join('  ')).join('\n');
}

/** One line a mutant: place, what was there, what is there now. */
export function line({ mutant: m, fate, tests, leftOut, seconds }: Verdict): string {
  const short = (text: string) => {
    const one = text.replace(/\s+/g, ' ').trim();
    return one === '' ? 'nothing' : one.length > 70 ? `${one.slice(0, 67)}…` : one;
  };
  const ran =
    fate === 'not covered' ? 'no test runs it' : `${tests} tests, ${seconds.toFixed(1)} s${leftOut > 0 ? `, ${leftOut} left out` : ''}`;
  return `${m.path}:${m.line}  ${m.mutator}: ${short(m.before)} → ${short(m.after)}  (${ran})`;
}
