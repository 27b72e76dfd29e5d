/**
 * What a rule text says: "F = A AND NOT B" gives an output, "T = A3..A0" names a group, "{C, S3..S0} = X plus Y" gives several outputs at once,
 * "dontcare when T > 9" says which rows do not matter. Lines may stand in any order; # begins a comment.
 * Forms of open standards: {C, S} is the concatenation of Verilog (IEEE 1364), the first name most significant, on either side of the =; A3..A0 is the
 * subrange of Pascal (ISO 7185); ⊕ ∧ ∨ ¬ are the signs of logic in ISO 80000-2. Standards cited from memory.
 */
import { done, type Failure, type Outcome } from '../../../shared/outcome.ts';
import { type Definition, depthOf, type Expression, isBit } from './expression.ts';
import { ended, meant } from './names.ts';
import { parseExpression } from './parse.ts';
import { failedLine, linesOf, type SplitLine } from './rule-lines.ts';

/** What some outputs must be. */
export interface RuleLine {
  readonly line: number;
  /** indices of outputs, the most significant first */
  readonly outputs: readonly number[];
  readonly expression: Expression;
}

export interface Rules {
  readonly gives: readonly RuleLine[];
  /** rows in which these outputs do not matter */
  readonly frees: readonly RuleLine[];
}

/** Names that are read inside each other; more would fill the stack. */
const MOST_NAMES = 100;

export function readRules(text: string, inputs: readonly string[], outputs: readonly string[]): Outcome<Rules> {
  const lines = linesOf(text, outputs);
  if (!lines.ok) return lines;
  return new RuleReader(inputs, outputs, lines.value).rules();
}

/** Lines that may speak of each other in any order: each is read once, when it is first spoken of. */
class RuleReader {
  private readonly givers: readonly SplitLine[];
  private readonly giverOf = new Map<string, SplitLine>();
  /** names that something was made of */
  private readonly used = new Set<string>();
  private readonly definitions = new Map<SplitLine, Definition>();
  /** names whose lines are being read, the outermost first */
  private readonly open: string[] = [];
  private failure: Failure | undefined;

  constructor(
    private readonly inputs: readonly string[],
    private readonly outputs: readonly string[],
    private readonly lines: readonly SplitLine[],
  ) {
    this.givers = lines.filter((l) => !l.frees);
  }

  rules(): Outcome<Rules> {
    const named = this.nameGivers();
    if (!named.ok) return named;
    const gives = this.readGivers();
    if (!gives.ok) return gives;
    const frees = this.readFrees();
    if (!frees.ok) return frees;
    return this.misspelt() ?? done({ gives: gives.value, frees: frees.value });
  }

  /** Finds who gives each name; none is given twice. */
  private nameGivers(): Outcome<void> {
    for (const line of this.givers)
      for (const name of line.targets) {
        const before = this.giverOf.get(name);
        if (this.inputs.includes(name))
          return failedLine('rules/name-taken', line.number, `${name} is an input and cannot be given a value. Choose another name.`);
        if (before)
          return failedLine(
            'rules/name-taken',
            line.number,
            `${name} has its value from line ${before.number} already. Keep one of the two.`,
          );
        if (line.targets.length > 1 && !this.outputs.includes(name)) return this.noOutput(name, line);
        this.giverOf.set(name, line);
      }
    return done(undefined);
  }

  private readGivers(): Outcome<readonly RuleLine[]> {
    const gives: RuleLine[] = [];
    for (const line of this.givers) {
      const [name = ''] = line.targets;
      const definition = this.definitionOf(line, name);
      if (this.failure) return { ok: false, failure: this.failure };
      if (definition && this.outputs.includes(name))
        gives.push({ line: line.number, outputs: this.indices(line.targets), expression: definition.expression });
    }
    return done(gives);
  }

  private readFrees(): Outcome<readonly RuleLine[]> {
    const frees: RuleLine[] = [];
    for (const line of this.lines.filter((l) => l.frees)) {
      const { number, targets } = line;
      const stranger = targets.find((n) => !this.outputs.includes(n));
      if (stranger !== undefined) return this.noOutput(stranger, line);
      const { expression, failure } = parseExpression(line.tokens, line.from, number, this.resolve);
      const first = this.failure ?? failure;
      if (first) return { ok: false, failure: first };
      if (!isBit(expression))
        return failedLine('rules/wrong-type', number, 'the condition after when is a number. Compare it, such as T > 9.');
      frees.push({ line: number, outputs: this.indices(targets.length > 0 ? targets : this.outputs), expression });
    }
    return done(frees);
  }

  /** A name of one's own that nothing is made of is most likely an output's, misspelt. */
  private misspelt(): Outcome<never> | undefined {
    for (const { number, targets } of this.givers) {
      const [name = ''] = targets;
      if (this.outputs.includes(name) || this.used.has(name)) continue;
      return failedLine(
        'rules/unknown-name',
        number,
        `${name} is no output, and no other line speaks of it. ${ended(meant(name, this.outputs))}`,
      );
    }
    return undefined;
  }

  private readonly resolve = (name: string): Expression | string => {
    const { inputs, outputs } = this;
    const input = inputs.indexOf(name);
    if (input >= 0) return { kind: 'input', index: input, bits: 1, column: 1 };
    const line = this.giverOf.get(name);
    this.used.add(name);
    if (!line)
      return outputs.includes(name)
        ? `output ${name} has no rule of its own yet, so it cannot be used. Add one`
        : `nothing is called ${name}. ${meant(name, [...new Set([...inputs, ...outputs, ...this.giverOf.keys()])])}`;
    const definition = this.definitionOf(line, name);
    if (!definition) return `${name} could not be read`;
    const { expression } = definition;
    const last = line.targets.length - 1;
    return {
      kind: 'defined',
      definition,
      ...(last > 0 ? { bit: last - line.targets.indexOf(name) } : {}),
      bits: last > 0 || outputs.includes(name) ? 1 : expression.bits,
      column: 1,
      deep: depthOf(expression),
    };
  };

  private definitionOf(line: SplitLine, name: string): Definition | undefined {
    const before = this.definitions.get(line);
    if (before) return before;
    const circle = this.open.findIndex((n) => line.targets.includes(n));
    if (circle >= 0)
      return this.circular(
        line,
        `this is circular, ${[...this.open.slice(circle), name].join(' needs ')}. A memory has no past: give one of them by inputs only.`,
      );
    if (this.open.length >= MOST_NAMES)
      return this.circular(line, `more than ${MOST_NAMES} names need one another in a row before ${name}. Give some of them by inputs.`);
    this.open.push(name);
    const reading = parseExpression(line.tokens, line.from, line.number, this.resolve);
    this.open.pop();
    this.failure ??= reading.failure;
    if (this.failure) return undefined;
    const definition = { line: line.number, names: line.targets, expression: reading.expression };
    this.definitions.set(line, definition);
    return definition;
  }

  private circular({ number }: SplitLine, says: string): undefined {
    this.failure ??= { code: 'rules/circular', at: `line ${number}`, says: `line ${number}: ${says}` };
  }

  private noOutput(name: string, { number }: SplitLine): Outcome<never> {
    return failedLine('rules/unknown-name', number, `${name} is no output. ${ended(meant(name, this.outputs))}`);
  }

  private indices(names: readonly string[]): readonly number[] {
    return names.map((n) => this.outputs.indexOf(n));
  }
}
