/** The page of all codes: kinds of failure and rules of findings, with what each means, as Markdown. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { FAILURES } from '../shared/failure-codes.ts';
import { RULES, SEVERITIES, SEVERITY_NAMES } from '../sim-core/index.ts';

/** `root`: folder of the repository. What a rule means is the sentence that its file begins with. */
export function codesPage(root: string): string {
  const failures = Object.entries(FAILURES).map(([code, means]) => [`\`${code}\``, means]);
  const findings = [...RULES]
    .sort((a, b) => SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity) || (a.code < b.code ? -1 : 1))
    .map((rule) => [`\`${rule.code}\``, SEVERITY_NAMES[rule.severity], meaningOf(rule.code, root)]);
  return [
    '# Codes',
    '',
    'Printed by `npm run codes` from `shared/failure-codes.ts` and the rules in `sim-core/findings/rules`.',
    '',
    '## Failures',
    '',
    'What could not be done has a code, a place and a sentence: `{ "code", "at", "says" }` in replies of the API and with `--json` in the shell.',
    '',
    ...markdownTable(['Code', 'What it means'], failures),
    '',
    '## Findings',
    '',
    'What a check finds on a bench. The severity is the usual one; a finding can be more or less severe where the figures say so.',
    '',
    ...markdownTable(['Code', 'Severity', 'What it means'], findings),
    '',
  ].join('\n');
}

function meaningOf(code: string, root: string): string {
  const file = join(root, 'sim-core/findings/rules', `${code}.ts`);
  const means = /^\/\*\* (.+?) \*\/$/m.exec(readFileSync(file, 'utf8'))?.[1];
  if (means === undefined) throw new Error(`${file} does not begin with a sentence`);
  return means;
}

const markdownTable = (head: readonly string[], rows: readonly (readonly string[])[]): string[] =>
  [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.map((c) => c.replaceAll('|', '\\|')).join(' | ')} |`);
