/** What the simulation models and what it does not, in plain words: the Limits page and the README print it from here. */

export interface Modelled {
  readonly name: string;
  readonly says: string;
}

export interface ModelLimit {
  readonly name: string;
  /** what is not modelled */
  readonly leaves: string;
  /** a reading can be wrong … */
  readonly when: string;
}

/** What the simulation computes. */
export const MODELLED: readonly Modelled[] = [
  {
    name: 'Boards',
    says: '63 and 30 rows, hole by hole; rails split in the middle where the board has it; a part one row off is one row off.',
  },
  {
    name: 'Electricity',
    says: 'a supply with internal resistance and current limit, resistors, capacitors, inductors, exponential diodes, inputs with leakage, capacitance and clamps, outputs with drive curves instead of ideal levels. Bus contention draws real currents.',
  },
  {
    name: 'Wiring',
    says: 'optional (Lists page, Wiring): wires are AWG 22 copper with contact resistance, and rails have resistance from hole to hole; chips then show their supply dip when something switches, and the effect of a decoupling capacitor.',
  },
  {
    name: 'Time',
    says: 'every capacitor’s voltage and every coil’s current change by a step-controlled method, threshold crossings are located on the computed curve, contacts bounce.',
  },
  {
    name: 'Parts',
    says: 'mask ROMs, fusible-link PROMs, UV EPROMs, EEPROMs from 2K × 8 to 64K × 8, static RAMs from 2K × 8 to 32K × 8, and any other byte-wide memory from the figures of its data sheet; NAND, NOR, AND, OR and XOR gates, inverters, Schmitt inverters; buffers, registers, counter, decoder, drivers, a timer, a transistor, LEDs, bar graphs, 7-segment displays, a relay, a DC motor, passive parts, switches, clocks. Each figure in a part’s file names its source, or says that it is from memory.',
  },
  {
    name: 'The memory',
    says: 'reads with access time, enables and output float; writes by a pulse whose width, set-up and hold times are measured at the pin; the internal write cycle; the erased state; write lock-out below its supply threshold. A bit is shown as undefined (X) only if it is.',
  },
  {
    name: 'Tolerances',
    says: 'resistors ± 5 %, capacitors ± 10 %, supply ± 10 % (the tolerance of each part), LEDs’ forward voltages, outputs between guaranteed and typical, thresholds between guaranteed low and high. Margins by worst case, root-sum-square or random builds; what works only marginally is reported.',
  },
  {
    name: 'What goes wrong',
    says: 'overcurrent in an LED, a pin or a package; no current limit; a reversed LED; a floating input; a chip without supply; a write pulse that is too short, too long or ignored; overvoltage at a pin; a memory that is worn, was not erased or does not hold what its table wants; missing decoupling; rail halves that are not connected; two legs in one row.',
  },
  {
    name: 'Damage',
    says: 'stress beyond each absolute maximum adds up, and the cause is named. A burnt pin is open while its chip works on, and so is one segment of a display; a damaged electrolytic conducts; any other damaged part is open.',
  },
];

/** What the simulation leaves out, and when that matters. */
export const LIMITS: readonly ModelLimit[] = [
  {
    name: 'Inductance',
    leaves:
      'only inductors, relays and motors have any, and never saturate; wires, legs and rails have none, so there is no ringing, and a supply dips less at an edge than a real one',
    when: 'when many outputs switch together, or when a long wire carries an edge of a few nanoseconds',
  },
  {
    name: 'Crosstalk',
    leaves: 'neighbouring rows and wires have no capacitance to each other or to the board',
    when: 'when a quiet high-resistance pin, such as a write strobe, is next to a fast one',
  },
  {
    name: 'Transmission lines',
    leaves: 'a wire has no delay and no reflections',
    when: 'when a wire is a metre or longer and its edges take only nanoseconds',
  },
  {
    name: 'Interference and noise',
    leaves: 'the bench neither radiates nor picks up anything, and has no noise',
    when: 'when a level is so close to its threshold that hum, a switching supply or a finger could move it across',
  },
  {
    name: 'Wiring',
    leaves:
      'wires and rails have no resistance unless the plan turns it on (Lists page, Wiring); five-hole strips and leg contacts never have any',
    when: 'when a rail carries several hundred milliamperes, or when a contact is worn or corroded',
  },
  {
    name: 'Temperature',
    leaves: 'every part is at 25 °C',
    when: 'when the real bench is hot or cold: forward voltages, leakage and thresholds change',
  },
  {
    name: 'Self-heating',
    leaves: 'no part heats up from its own current, and no heat spreads',
    when: 'when an LED, a transistor or a driver works near its limit for longer than a moment',
  },
  {
    name: 'Damage',
    leaves:
      'how long a part withstands an overload is our choice, from memory: T/((measured/limit)ⁿ − 1), with n = 1 or 2 and T from half a second to two minutes; it does not cool down between overloads',
    when: 'when a part is overloaded: a real one may fail sooner, later or only partly',
  },
  {
    name: 'Ageing',
    leaves: 'contacts, capacitors and LEDs do not age; only writes of memory cells are counted',
    when: 'when the parts are old: electrolytics lose capacitance, contacts get worse, LEDs get dimmer',
  },
  {
    name: 'Metastability',
    leaves:
      'a register whose data changes at the clock edge shows an undefined (X) bit until the next edge, not how long a real one takes to settle',
    when: 'when one chip reads a bit that another has not settled',
  },
  {
    name: 'Writes outside the limits',
    leaves: 'what a data sheet does not guarantee is shown as uncertain, and an uncertain bit reads as undefined (X)',
    when: 'where the real memory settles on a plain 0 or 1, possibly the intended one',
  },
  {
    name: 'Output curves',
    leaves: 'between guaranteed data sheet points, output curves are from memory, and marked so in the part’s file',
    when: 'when there is bus contention, or when a memory’s high level drives an LED directly',
  },
  {
    name: 'Junctions',
    leaves:
      'diodes, LEDs and transistors store no charge; only a transistor breaks down, from collector to emitter at 60 V, and nothing else does in reverse',
    when: 'when a transistor switches within a microsecond, or when a junction is reverse-biased beyond its rating',
  },
  {
    name: 'Relays and motors',
    leaves:
      'a relay operates at three quarters of its voltage and releases at a tenth, as sheets guarantee, and its contacts neither arc nor wear; a motor has no load, no brushes and friction in proportion to its speed',
    when: 'when a relay’s voltage lies between the two, when a contact breaks an inductive load, or when a motor has to move something',
  },
  {
    name: 'Capacitors',
    leaves: 'they have their nominal value at every voltage and no series resistance; an electrolytic has leakage',
    when: 'when a ceramic works near its rated voltage, or when an electrolytic has to buffer a rail at an edge',
  },
  {
    name: 'Chip supply current',
    leaves: 'a chip draws a constant current, active or standby, in proportion to its supply voltage, with no surge as it switches',
    when: 'when there is little decoupling and many chips switch at the same moment',
  },
  {
    name: 'Many undefined outputs in one network',
    leaves: 'beyond 64 combinations of output levels, not every one is solved',
    when: 'where more than six of them meet: an LED may then be shown as undefined (X) although it is not, never the other way round',
  },
];

/** One limit as a sentence or two. */
export const limitSays = ({ leaves, when }: ModelLimit): string => `${leaves}. A reading can be wrong ${when}.`;
