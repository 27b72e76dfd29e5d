/**
 * The plan document, version 2: everything that stands on a bench and nothing that can be derived from it.
 *
 * How it grows: from here on by optional fields alone, each of which means, left out, what a plan meant before there was one. What has a name keeps it,
 * keeps its unit and its meaning, and is never made required. So a plan of version 2 opens for ever, in every later program. Objects stay closed: a
 * program says which field of a newer plan it does not know, rather than drop it when the plan is saved. What cannot be done this way is version 3, with a
 * step in upgrade-plan.ts.
 */
import { type Static, Type } from 'typebox';

const closed = { additionalProperties: false } as const;

/** Most parts of a plan, and most entries of what names each part once. */
const MOST_PARTS = 2000;
const MOST_WIRES = 5000;
/** Most entries of one memory's contents: every address of the largest memory by itself. */
const MOST_CELLS = 65_536;
/** By id of a part. */
const byPart = { ...closed, maxProperties: MOST_PARTS } as const;

/** A stable name for a thing on the bench: `U1`, `R12`, `W3`. Unique over boards, parts and wires together. */
const Id = Type.String({ pattern: '^[A-Za-z][A-Za-z0-9_]{0,15}$', description: 'letter first, then letters, digits or _, 16 at most' });

/**
 * A place a leg or a wire's end can be pushed into.
 * `a12`: column a, row 12. `+j7`: seventh hole of the plus rail beside column j. `PS1.+`: a terminal of a part that stands off the boards.
 * `B2:a12` names the board; without it the first board is meant.
 */
const Point = Type.String({
  minLength: 2,
  maxLength: 40,
  description: 'a tie point such as a12, +j7, B2:a12, or a terminal such as PS1.+',
});

/** Bench coordinates in units of the 0.1 inch pitch, x to the right, y down. */
const Spot = Type.Tuple([Type.Number({ minimum: -1000, maximum: 1000 }), Type.Number({ minimum: -1000, maximum: 1000 })]);

const Board = Type.Object(
  {
    id: Id,
    kind: Type.Union([Type.Literal('board-63'), Type.Literal('board-30')]),
    spot: Spot,
    /** true: each rail is cut in the middle, and its halves are two nets */
    splitRails: Type.Boolean(),
  },
  closed,
);

const Part = Type.Object(
  {
    id: Id,
    /** id of a kind of part, as sim-core/parts/catalogue.ts has them; one that this program does not have is read, and refused when the circuit is built */
    kind: Type.String({ minLength: 1, maxLength: 40 }),
    /** the hole of pin 1; absent for a part that stands off the boards */
    at: Type.Optional(Point),
    /** the hole of the second leg of a two-leg part */
    to: Type.Optional(Point),
    /** a chip stands end for end, rotated by half a turn round its pin 1 */
    rotated: Type.Optional(Type.Literal(true)),
    /** where a part without a hole stands */
    spot: Type.Optional(Spot),
    /** figures of this specimen, in SI units; which there are is the part's own business */
    params: Type.Optional(
      Type.Record(
        Type.String({ pattern: '^[a-z][A-Za-z]{0,23}$' }),
        Type.Union([Type.Number(), Type.Boolean(), Type.String({ maxLength: 200 })]),
        closed,
      ),
    ),
    /** what its owner calls it: "vent" */
    label: Type.Optional(Type.String({ maxLength: 40 })),
    /** of a switch: what its poles are called, pole 1 first; '' for one without a name. No two poles of a plan have the same name, whatever its capitals */
    poleNames: Type.Optional(
      Type.Array(
        Type.String({ maxLength: 40, pattern: '^([^\\s"]([^"\\n\\r\\t]*[^\\s"])?)?$', description: 'a name without quotation marks' }),
        {
          minItems: 1,
          maxItems: 12,
        },
      ),
    ),
    /** what killed it, or some of its pins, until it is replaced: measured against the limit, in A, V or W */
    damaged: Type.Optional(
      Type.Object(
        {
          by: Type.Union([
            Type.Literal('current'),
            Type.Literal('reverse'),
            Type.Literal('power'),
            Type.Literal('supply'),
            Type.Literal('voltage'),
            Type.Literal('output'),
            Type.Literal('package'),
            Type.Literal('input'),
          ]),
          measured: Type.Number(),
          limit: Type.Number(),
          /** names of the pins that alone are burnt open, the last one by this cause; a pin of one of several LEDs means that LED; absent: the whole part is gone */
          pins: Type.Optional(Type.Array(Type.String({ pattern: '^[A-Za-z0-9/+−-]{1,8}$' }), { minItems: 1, maxItems: 64 })),
        },
        closed,
      ),
    ),
  },
  closed,
);

const Wire = Type.Object(
  {
    id: Id,
    from: Point,
    to: Point,
    colour: Type.String({ pattern: '^[a-z]{3,10}$', description: 'a colour in small letters such as red' }),
  },
  closed,
);

/** One memory's bytes: hexadecimal address of the first byte → hexadecimal bytes. What is not named is in the erased state. */
const MemoryImage = Type.Record(
  Type.String({ pattern: '^[0-9A-F]{1,6}$' }),
  Type.String({ pattern: '^([0-9A-F]{2})+$', maxLength: 2048, description: 'pairs of hexadecimal digits, capitals' }),
  { ...closed, maxProperties: MOST_CELLS, description: 'hexadecimal addresses in capitals, each with its bytes' },
);

const cellAddress = '^[0-9A-F]{1,6}$';

/** What of one memory's cells its bytes do not tell; what is not named is certain, wholly programmed or erased, and fresh. */
const CellState = Type.Object(
  {
    /** address of the first byte → masks: 1 where the bit is undefined, which its byte shows as 1 */
    uncertain: Type.Optional(MemoryImage),
    /** of a memory that is programmed by pulses: address of the first byte → four digits a bit, bit 0 first, from 0000 (erased) to FFFF (programmed) */
    charge: Type.Optional(
      Type.Record(Type.String({ pattern: cellAddress }), Type.String({ pattern: '^([0-9A-F]{32})+$', maxLength: 512 }), {
        ...closed,
        maxProperties: MOST_CELLS,
      }),
    ),
    /** address of the first cell → how often it was written on the bench, and how many cells from there on were written as often */
    writes: Type.Optional(
      Type.Record(
        Type.String({ pattern: cellAddress }),
        Type.Tuple([Type.Integer({ minimum: 1, maximum: 4_000_000_000 }), Type.Integer({ minimum: 1, maximum: 16_777_216 })]),
        { ...closed, maxProperties: MOST_CELLS },
      ),
    ),
  },
  closed,
);

const lineName = Type.String({ minLength: 1, maxLength: 40 });
const linePin = Type.String({ pattern: '^[A-Za-z0-9_]+\\.[A-Z0-9/]+$', description: 'a pin by name such as U1.A0' });

const WantedInput = Type.Object({ name: lineName, pin: linePin }, closed);

const WantedOutput = Type.Object(
  {
    name: lineName,
    pin: linePin,
    /** a 1 of the table is the low level at the pin */
    activeLow: Type.Optional(Type.Literal(true)),
    /** the LED that shows it, if it does not bear its name: LED3, or DS1.a */
    led: Type.Optional(Type.String({ pattern: '^[A-Za-z0-9_]+(\\.[A-Za-z0-9]+)?$', description: 'an LED such as LED3 or DS1.a' })),
  },
  closed,
);

/** The truth table that the bench is meant to show. */
const Wanted = Type.Object(
  {
    /** least significant first: bit i of a row's number is inputs[i] */
    inputs: Type.Array(WantedInput, { maxItems: 16 }),
    /** bit i of a row's value is outputs[i] */
    outputs: Type.Array(WantedOutput, { maxItems: 16 }),
    /** the rules in words, one an output */
    rules: Type.Array(Type.String({ maxLength: 200 }), { maxItems: 64 }),
    /** one value a row, in order of the row's number */
    rows: Type.Array(Type.Integer({ minimum: 0, maximum: 65535 }), { maxItems: 65536 }),
    /** where any value will do: one mask a row, as rows; absent: nowhere */
    dontCare: Type.Optional(Type.Array(Type.Integer({ minimum: 0, maximum: 65535 }), { maxItems: 65536 })),
    /** what the outputs are computed from, one line an output or a name given to a part of it: "vent = (hot or damp) and not windy" */
    expressions: Type.Optional(Type.Array(Type.String({ minLength: 1, maxLength: 2000 }), { maxItems: 64 })),
  },
  closed,
);

/** The wiring as it is meant: what stood on the bench when it was built, or when it was proven and kept. What memories are to hold is the table's business. */
const Meant = Type.Object(
  {
    boards: Type.Array(Board, { maxItems: 16 }),
    parts: Type.Array(Part, { maxItems: MOST_PARTS }),
    wires: Type.Array(Wire, { maxItems: MOST_WIRES }),
  },
  closed,
);

/** Said and signed: every row was seen and was right. Holds only as long as the bench is what it was made of. */
const SignedProof = Type.Object(
  {
    date: Type.String({ pattern: '^\\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\\d|3[01])$', description: 'a date such as 2026-01-31' }),
    /** whoever signed; may be empty */
    by: Type.String({ maxLength: 60 }),
    rows: Type.Integer({ minimum: 1, maximum: 65536 }),
    /**
     * of what was proven: wiring, parts, bytes and table. If the bench has another one, something was changed since. Of 64 digits: taken of a plan of
     * version 1, whose names for things were others, so that it cannot be compared any more.
     */
    fingerprint: Type.String({
      pattern: '^[0-9a-f]{16}([0-9a-f]{48})?$',
      maxLength: 64,
      description: '16 hexadecimal digits in small letters',
    }),
    /** how each pole of each switch was set: 1 closed, 0 open, - moved by the proof itself; absent: a proof of before this was kept */
    switches: Type.Optional(
      Type.Record(Id, Type.String({ pattern: '^[01-]{1,12}$', maxLength: 12, description: 'one of 0, 1 and - a pole' }), byPart),
    ),
  },
  closed,
);

/** What any meter may have: what its owner calls it, and where its tag stands, relative to where it measures [pitch]. */
const tagged = {
  label: Type.Optional(Type.String({ minLength: 1, maxLength: 40 })),
  tag: Type.Optional(Type.Tuple([Type.Number({ minimum: -100, maximum: 100 }), Type.Number({ minimum: -100, maximum: 100 })])),
} as const;

const Meter = Type.Union([
  /** from `against` to `at`; without it from the first supply's minus */
  Type.Object({ id: Id, measures: Type.Literal('volts'), at: Point, against: Type.Optional(Point), ...tagged }, closed),
  /** positive: from the net into the leg */
  Type.Object(
    {
      id: Id,
      measures: Type.Literal('amps'),
      leg: Type.String({ pattern: '^[A-Za-z0-9_]+\\.[A-Za-z0-9+/-]+$', description: 'a leg such as LED3.1 or PS1.+' }),
      ...tagged,
    },
    closed,
  ),
  /** a logic probe */
  Type.Object({ id: Id, measures: Type.Literal('level'), at: Point, ...tagged }, closed),
]);

export const Plan = Type.Object(
  {
    format: Type.Literal('lampwright-plan'),
    version: Type.Literal(2),
    title: Type.String({ minLength: 1, maxLength: 120 }),
    /** the first is meant where a tie point names none */
    boards: Type.Array(Board, { maxItems: 16 }),
    parts: Type.Array(Part, { maxItems: MOST_PARTS }),
    wires: Type.Array(Wire, { maxItems: MOST_WIRES }),
    /** by the memory's part; one that is not named is erased */
    memories: Type.Record(Id, MemoryImage, byPart),
    /** what the memories' bytes do not tell of their cells */
    cells: Type.Optional(Type.Record(Id, CellState, byPart)),
    /** absent: the bench is not meant to show anything in particular */
    wanted: Type.Optional(Wanted),
    /** the last signed proof of it */
    proof: Type.Optional(SignedProof),
    /** boards, parts and wires as they are meant; no edit of the bench changes it. Absent: only the table says what is meant */
    meant: Type.Optional(Meant),
    meters: Type.Array(Meter, { maxItems: 100 }),
    /** what a person wants to say; the first of a demonstration says what it is */
    notes: Type.Array(Type.String({ maxLength: 2000 }), { maxItems: 100 }),
    /** where the switches stand: one truth value a pole, or a supply's single on/off; what is not named is off */
    switches: Type.Record(Id, Type.Array(Type.Boolean(), { maxItems: 12 }), byPart),
    /** wires and rails with resistance; absent: they have none */
    wiring: Type.Optional(Type.Literal('real')),
    /** what chips' outputs can give and take: no more than their sheets guarantee; absent: what they typically do */
    outputs: Type.Optional(Type.Literal('guaranteed')),
  },
  { ...closed, $id: 'lampwright-plan-2', title: 'Lampwright plan, version 2' },
);

export type Plan = Static<typeof Plan>;
export type PlanCells = Static<typeof CellState>;
export type PlanBoard = Static<typeof Board>;
export type PlanPart = Static<typeof Part>;
export type PlanWire = Static<typeof Wire>;
export type PlanMeter = Static<typeof Meter>;
export type PlanProof = Static<typeof SignedProof>;
export type PlanMeant = Static<typeof Meant>;
export type PlanWanted = Static<typeof Wanted>;
