/** What the simulation computes and what it leaves out, each in plain words: the page Limits and the README print it from here. */

export interface Modelled {
  readonly name: string;
  readonly says: string;
}

export interface ModelLimit {
  readonly name: string;
  /** what is left out */
  readonly leaves: string;
  /** a reading can be wrong … */
  readonly when: string;
}

export const MODELLED: readonly Modelled[] = [
  {
    name: 'Boards',
    says: 'of 63 and 30 rows, tie point by tie point; rails that are split in the middle where the board says so; parts one row off are one row off.',
  },
  {
    name: 'Electricity',
    says: 'supply with internal resistance and current limit, resistors, capacitors, diodes as exponentials, inputs with leakage, capacitance and clamps, outputs with curves rather than ideal levels. Two outputs on one net fight, and the currents say how badly.',
  },
  {
    name: 'Wiring',
    says: 'if the plan asks for it (page Lists, Wiring), wires are copper of AWG 22 with their contacts and rails resist from hole to hole; chips then show how far their supply dips when something switches, and what a capacitor beside them does about it.',
  },
  {
    name: 'Time',
    says: 'charging of every capacitor by a step-controlled method, level crossings located on the computed curve, contacts that bounce.',
  },
  {
    name: 'Parts',
    says: 'mask, fuse and UV memories, EEPROMs from 2K × 8 to 64K × 8, static RAMs from 2K × 8 to 32K × 8; buffers, registers, counter, decoder, Schmitt inverter, drivers, a timer, a transistor, LEDs, digits, passive parts, switches, clocks. Each figure in a part’s file carries its source, or says that it is from memory.',
  },
  {
    name: 'The memory',
    says: 'reading with access times, enables and release; writing by a pulse whose width, set-up and hold are measured where the pin sees them; the internal cycle; the erased state; the lock-out below its supply threshold. A bit that cannot be known is shown as unknown, and only then.',
  },
  {
    name: 'Spread',
    says: 'resistors ± 5 %, capacitors ± 10 %, supply ± 10 % (the tolerance of each part), LEDs’ forward voltages, outputs between guaranteed and typical, thresholds between guaranteed low and high. Margins by extreme value, root-sum-square or chance; what works only by luck is said.',
  },
  {
    name: 'What goes wrong',
    says: 'too much current in an LED, a pin or a package; no current limit; an LED the wrong way round; an input that nothing holds; a chip without supply; a write that is too short, too long, ignored; a pin over its voltage; a memory that is worn, was not erased, or holds other bytes than its table wants; missing decoupling; rail halves that are not joined; two legs in one row.',
  },
  {
    name: 'Damage',
    says: 'stress beyond every absolute maximum is summed, and the cause is named. A burnt pin is open while its chip goes on, and so is one segment of a digit, a broken electrolytic conducts, everything else that is damaged joins nothing any more.',
  },
];

export const LIMITS: readonly ModelLimit[] = [
  {
    name: 'Inductance',
    leaves: 'wires, legs and rails have none, so nothing rings, and a supply dips less at an edge than a real one',
    when: 'when many outputs change together, or when an edge of some nanoseconds runs along a long wire',
  },
  {
    name: 'Crosstalk',
    leaves: 'neighbouring rows and wires have no capacitance to each other or to the board',
    when: 'when a quiet pin of high resistance, such as a write strobe, lies beside a fast one',
  },
  {
    name: 'Transmission lines',
    leaves: 'a wire carries its voltage from end to end at once',
    when: 'when a wire is a metre long or more and the edge on it lasts only nanoseconds',
  },
  {
    name: 'Radio and noise',
    leaves: 'the bench neither sends nor receives, and nothing trembles by itself',
    when: 'when a level lies so near to its limit that hum, a switching supply or a finger would move it across',
  },
  {
    name: 'Wiring',
    leaves:
      'wires and rails have no resistance unless the plan gives them theirs (page Lists, Wiring); strips of five holes and the contacts of parts’ legs never have any',
    when: 'when several hundred milliamperes flow along a rail, or when a contact is worn or corroded',
  },
  {
    name: 'Temperature',
    leaves: 'every part is at 25 °C',
    when: 'when the real bench is hot or cold: an LED’s forward voltage, leakage and thresholds then differ',
  },
  {
    name: 'Self-heating',
    leaves: 'no part warms up by what flows through it, and no heat spreads',
    when: 'when an LED, a transistor or a driver works near its limit for longer than a moment',
  },
  {
    name: 'Damage',
    leaves:
      'how long a part bears an overload is a choice of ours, from memory: T/((measured/limit)ⁿ − 1), with n = 1 or 2 and T from half a second to two minutes; it does not cool down between overloads',
    when: 'when a part is overloaded: a real one may fail sooner, later, or only in part',
  },
  {
    name: 'Ageing',
    leaves: 'contacts, capacitors and LEDs stay as they are; only writes of a memory’s cells are counted',
    when: 'when the parts are old: electrolytics lose capacitance, contacts get worse, LEDs get dimmer',
  },
  {
    name: 'Metastability',
    leaves:
      'a register whose data moves at its clock’s edge shows an unknown bit until the next edge, and not how long a real one would hang',
    when: 'when one chip reads a bit that another one has just failed to decide',
  },
  {
    name: 'Writes outside the limits',
    leaves: 'what a data sheet does not promise is shown as uncertain, and an uncertain bit is read as unknown',
    when: 'where the real memory has decided: it then shows a plain 0 or 1, perhaps the one that was meant',
  },
  {
    name: 'Output curves',
    leaves: 'between the points that data sheets guarantee, the curves of outputs are from memory and marked so in the part’s file',
    when: 'when two outputs fight, or when an LED hangs on a memory’s high level',
  },
  {
    name: 'Junctions',
    leaves: 'diodes, LEDs and transistors store no charge and do not break down in reverse',
    when: 'when a transistor switches within a microsecond, or when more than its rating stands on a junction the wrong way round',
  },
  {
    name: 'Capacitors',
    leaves: 'they have their value at every voltage and no resistance in series; an electrolytic leaks',
    when: 'when a ceramic works near its rated voltage, or when an electrolytic has to hold a rail against an edge',
  },
  {
    name: 'Chips’ own current',
    leaves: 'a chip draws a steady current, one at work and one at rest, in proportion to its supply, and no surge as it switches',
    when: 'when decoupling is scarce and many chips switch at one moment',
  },
  {
    name: 'Many undecided outputs in one network',
    leaves: 'beyond 64 combinations of what they may pull, not every one is solved',
    when: 'where more than six of them meet: an LED may then be called undecided that is not, never the other way round',
  },
];

/** One limit as a sentence or two. */
export const limitSays = ({ leaves, when }: ModelLimit): string => `${leaves}. A reading can be wrong ${when}.`;
