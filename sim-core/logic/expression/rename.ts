/** A rule text in which a column goes by another name. */
import { quotedName } from './names.ts';
import { tokensOf } from './tokens.ts';

/** One line of rules with every mention of `from` written as `to`; a line that cannot be read stays as it is. */
export function renamedIn(line: string, from: string, to: string): string {
  const tokens = tokensOf(line, 1);
  if (!tokens.ok) return line;
  return tokens.value
    .filter((t) => t.kind === 'name' && t.text === from)
    .reduceRight((text, { column }) => {
      const rest = text.slice(column - 1);
      // what stands there may be in quotation marks, or have overlines between its letters
      const written = /^"[^"]*"/.exec(rest)?.[0] ?? from;
      return rest.startsWith(written) ? `${text.slice(0, column - 1)}${quotedName(to)}${rest.slice(written.length)}` : text;
    }, line);
}
