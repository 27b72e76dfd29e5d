/** Every kind of failure by its code, with one sentence that says what it means. */

/** Reading a plan and laying it on its boards. */
const plan = {
  'plan/empty': 'There is no text to read a plan from.',
  'plan/broken-json': 'The text is not JSON, or it is cut off.',
  'plan/not-a-plan': 'The JSON is not a Lampwright plan.',
  'plan/unknown-version': 'The version of the plan is missing, or newer than this program.',
  'plan/outside-schema': 'A value of the plan is missing, not known or of the wrong type.',
  'plan/reserved-id': 'An id of the plan is a word that the program keeps for itself.',
  'plan/name-taken': 'Two switch poles in the plan have the same name.',
  'plan/id-taken': 'Two things in the plan have the same id.',
  'plan/unknown-part': 'The plan names a kind of part that does not exist.',
  'plan/unknown-parameter': 'A part in the plan has a parameter that its kind does not have.',
  'plan/parameter-out-of-range': 'A parameter of a part is outside its range or not one of its choices.',
  'plan/parameters-contradict': 'The figures of a part contradict each other, as on a data sheet that was entered.',
  'plan/unknown-hole': 'The plan names a tie point or a terminal that is not on its bench.',
  'plan/hole-taken': 'Two things in the plan are in the same tie point.',
  'plan/no-place': 'A part in the plan has no place, or a place of the wrong sort.',
  'plan/does-not-fit': 'A pin of a part finds no hole where the plan puts it.',
  'plan/contents-without-memory': 'The plan has contents for a memory that is not on the bench.',
  'plan/contents-past-end': 'The contents of a memory go past its last address.',
} as const;

/** Quantities, colour bands, and names as people type them. */
const value = {
  'value/empty': 'No quantity was given.',
  'value/ambiguous': 'The comma may stand for thousands or for the decimal point.',
  'value/not-a-quantity': 'The text is not a number with a prefix and a unit.',
  'value/wrong-unit': 'The unit is not known, or another one is needed here.',
} as const;

/** The text notation of a bench. */
const text = {
  'text/unknown-version': 'The text is not of a version that this program reads.',
  'text/unknown-line': 'No kind of line begins with this word.',
  'text/bad-id': 'The id of a line is missing, or is not a letter with letters, digits or _ after it.',
  'text/bad-quotes': 'Quotation marks are not closed, or something is next to them or in them that does not belong there.',
  'text/missing-word': 'A line lacks a word that it needs.',
  'text/unexpected-word': 'A word means nothing where it is in its line.',
  'text/given-twice': 'A text says something twice that it may say once.',
  'text/bad-value': 'A word of a line is not what it should be there: a number, a colour, a place, a pin.',
  'text/too-long': 'A line of a text is too long, or the text names more things than a bench can hold.',
  'text/wrong-row': 'A line of the table announces another row than the one that comes next.',
} as const;

/** Files of memory contents. */
const image = {
  'image/not-a-record': 'A line is not a record of this format.',
  'image/cut-off': 'A record is shorter or longer than it says.',
  'image/wrong-checksum': 'The checksum of a record does not match its bytes.',
  'image/wrong-count': 'The number of data records is not the one that the file states.',
  'image/after-end': 'A record follows the end record.',
  'image/no-end': 'The file has no end record.',
  'image/not-an-address': 'A text is not an address.',
  'image/not-a-byte': 'A text is not a byte from 0 to 255.',
  'image/outside-memory': 'An address is outside the memory.',
  'image/address-twice': 'The file gives one address twice.',
  'image/wrong-size': 'The file, or the image, does not have the size of the memory.',
  'image/no-bytes': 'The file gives no byte.',
  'image/not-binary': 'The file is a text of records, and a binary file is needed.',
  'image/sizes-differ': 'The two images do not have the same size.',
  'image/bytes-differ': 'The two images hold different bytes at one address.',
} as const;

/** Truth tables, typed or read from text. */
const table = {
  'table/none': 'The bench has no truth table.',
  'table/empty': 'The text holds no table, or no line of names.',
  'table/no-columns': 'The table has no input or no output.',
  'table/too-many-columns': 'The table has more inputs or outputs than are possible.',
  'table/unknown-column': 'A column is not in the table.',
  'table/missing-column': 'A column that is needed is missing.',
  'table/no-gap': 'It is not clear which columns are inputs and which are outputs.',
  'table/bad-name': 'The name of a column is empty, too long, or has a character that is not allowed.',
  'table/name-taken': 'Two columns have the same name.',
  'table/wrong-row-count': 'The number of rows or cells does not fit the number of inputs or columns.',
  'table/short-line': 'A line has fewer cells than the heading.',
  'table/row-twice': 'One row is given twice.',
  'table/not-a-level': 'A cell is neither a level nor a number in range.',
  'table/open-quotes': 'A quotation mark in the table is not closed.',
  'table/does-not-fit': 'The table, or the pasted block, is too large for where it is to go.',
  'table/line-gone': 'The line is no longer in the table.',
  'table/input-not-wired': 'An input of the table is on no address pin.',
  'table/output-not-wired': 'An output of the table is on no data pin.',
  'table/led-twice': 'Two LEDs have the name of one output, so either could be meant.',
  'table/no-memory': 'No memory is chosen, or none has the pins of this table.',
} as const;

/** Rules that give the outputs of a table. */
const rules = {
  'rules/syntax': 'A rule does not follow the grammar, or has a character that means nothing.',
  'rules/number-too-large': 'A number in a rule is too large.',
  'rules/unknown-name': 'A rule uses or gives a name that does not exist.',
  'rules/name-taken': 'A rule gives a value to a name that has one already.',
  'rules/bad-range': 'A range of names does not count from one to the other, or is too long.',
  'rules/circular': 'Names depend on each other in a circle, or too deeply.',
  'rules/wrong-type': 'A number is used where a bit is needed, or the other way round.',
  'rules/too-deep': 'A rule is nested too deeply.',
  'rules/undefined-row': 'A rule gives no value in some row.',
  'rules/does-not-fit': 'A rule gives a number that its outputs cannot show.',
  'rules/too-long': 'The rules, one of their lines or a name in them is too long, or they have too many lines.',
} as const;

/** Benches built from a table, and their programming cards. */
const build = {
  'build/unknown-memory': 'The memory asked for does not exist.',
  'build/too-many-inputs': 'The table has more inputs than the memory has address pins.',
  'build/too-many-outputs': 'The table has more outputs than the memories have data pins.',
  'build/not-proven': 'The bench that was drawn up does not show what the table wants.',
  'build/mixed-digit': 'The segments of one display are partly active low.',
  'build/current-too-high': 'LED, chip or supply cannot bear the current asked for.',
  'build/current-too-low': 'An LED with the current asked for might look dim.',
  'build/over-supply': 'The bench would draw more than its supply gives.',
  'build/active-low-load': 'A load cannot be active low.',
  'build/no-current': 'The current asked for does not light an LED.',
  'build/volatile-memory': 'The memory loses its contents with its supply, so nothing can be loaded beforehand.',
  'build/not-by-hand': 'The memory cannot be written on the bench by hand.',
  'build/loads-while-writing': 'Loads cannot be connected while the memory is written by hand.',
  'build/needs-buffer': 'LEDs from plus need a buffer while the memory is written by hand.',
  'build/wrong-arrangement': 'The LEDs cannot be arranged in this way.',
  'build/no-pulse': 'No usual resistor and capacitor make a write pulse that holds at all extremes.',
  'card/no-write-button': 'The memory has no write button on this bench.',
  'card/no-switch': 'No single switch sets a pin that has to be set.',
  'card/too-long': 'Writing the memory by hand would take too long.',
  'card/no-outputs': 'The table names no output of a memory on this bench.',
  'card/not-wired': 'A pin that the table names is not wired to the memory, or not held at a level.',
} as const;

/** Mistakes planted on a bench. */
const faults = {
  'faults/none-fits': 'No mistake of this level fits the bench so that an LED shows it.',
} as const;

/** Simulating, proving and sweeping a bench. */
const run = {
  'run/unknown-wire': 'There is no such wire on the bench.',
  'run/no-switch': 'There is no such switch, pole or button on the bench.',
  'run/no-window': 'The part has no window for ultraviolet light.',
  'run/bad-exposure': 'The time or the strength of the light is negative.',
  'run/no-address-switch': 'No switch sets an input of a memory, so there are no rows to go through.',
  'run/too-many-inputs': 'The bench has more inputs than a sweep goes through.',
  'run/nothing-to-explain': 'Nothing of this name has a why: it is no LED, wire, pin or memory of the bench.',
  'run/nothing-to-read': 'The bench has no meter, LED, supply, pin or hole of this name.',
  'run/no-rest': 'The bench changes by itself, and what was asked for needs one at rest.',
  'run/undefined-reading': 'The reading is undefined (X), or nothing drives it, with some specimens.',
  'record/nothing-of-this-name': 'Nothing on the bench of this name can be recorded.',
  'record/bad-trigger': 'A record cannot wait for this.',
  'record/not-triggered': 'What the record waits for has not happened.',
  'trace/too-early': 'A change is before the beginning of the recording.',
} as const;

/** Changing a bench. */
const edit = {
  'edit/nothing-selected': 'Nothing is selected that the edit could change.',
  'edit/nothing-copied': 'Nothing was copied before.',
  'edit/gone': 'The thing to change is no longer on the bench.',
  'edit/too-many': 'The bench has as many of these as a plan takes.',
  'edit/hole-taken': 'The tie point is taken.',
  'edit/unknown-hole': 'There is no such tie point, terminal or leg on the bench.',
  'edit/no-free-hole': 'There is no free hole where one is needed.',
  'edit/no-room': 'No board has room for it.',
  'edit/off-board': 'It would leave the board or the bench, or lie across the trench.',
  'edit/boards-overlap': 'The board would lie on another one.',
  'edit/already-connected': 'The wire would connect what is connected already.',
  'edit/cannot-rotate': 'The part cannot be rotated or flipped there.',
  'edit/name-taken': 'Another switch pole has that name.',
  'edit/bad-name': 'A name has no quotation marks, and no space at its edges.',
  'edit/too-long': 'The text is too long.',
  'edit/bad-count': 'The number of copies, or the step, is not possible.',
  'edit/not-a-colour': 'The text is not a colour.',
  'edit/not-a-memory': 'The part is not a memory.',
  'edit/no-supply': 'The memory has no supply and would lose what is stored.',
  'edit/last-line': 'A table keeps at least one input and one output.',
} as const;

/** Files, links, and the stores that benches are kept in. */
const file = {
  'file/not-found': 'There is no such file, demonstration or table.',
  'file/unreadable': 'The file cannot be read.',
  'file/not-text': 'The file is not text in an encoding that is read.',
  'file/unwritable': 'The file cannot be written.',
  'file/too-large': 'The file is too large to be a plan.',
  'file/unreachable': 'The server cannot be reached, or does not have it.',
  'link/too-long': 'The bench is too large for a link.',
  'link/damaged': 'The link is not complete.',
  'file/exists': 'The file exists and is not overwritten.',
} as const;

/** Commands, typed on the page or in the shell. */
const command = {
  'command/unknown': 'There is no such command.',
  'command/missing-word': 'The command needs one more word.',
  'command/too-many-words': 'The command takes fewer words.',
  'command/bad-word': 'A word is not one of those that the command takes.',
  'command/unknown-name': 'Nothing is called so.',
  'command/not-possible': 'There is nothing that the command could act on now.',
} as const;

/** The page: the bench that is open, and where it is kept. */
const page = {
  'page/no-bench': 'No bench is open.',
  'page/bench-gone': 'The bench is no longer kept in this browser.',
  'page/changed-elsewhere': 'The bench is open, or was changed, in another tab.',
  'page/read-only': 'The bench was shared to be operated, not to be edited.',
  'page/not-stored': 'The browser does not store the bench.',
  'page/simulation-error': 'The simulation failed with an error and was restarted.',
  'page/simulation-silent': 'The simulation gave no answer for 15 s and was restarted.',
  'page/simulation-stopped': 'The simulation was stopped and restarted.',
  'page/action-stopped': 'An action was stopped before everything was at rest.',
  'page/job-error': 'Long work in the page, such as a proof or a build, failed with an error.',
  'page/job-silent': 'Long work in the page gave no answer for a minute and was ended.',
  'page/not-simulated': 'The simulation failed twice on the bench, which is simulated no more.',
} as const;

/** Options of the command line. */
const cli = {
  'cli/unknown-option': 'The command does not take this option.',
  'cli/option-twice': 'An option is given twice.',
  'cli/bad-value': 'The value of an option is missing or not one of its choices.',
  'cli/options-clash': 'Two options make no sense together.',
} as const;

/** The HTTP interface. */
const api = {
  'api/too-large': 'The body of the request is too large.',
  'api/wrong-type': 'The body of the request is not sent as JSON.',
  'api/bad-request': 'The request cannot be read.',
  'api/not-found': 'There is nothing at this address.',
  'api/busy': 'The server is checking other plans, or is closing.',
  'api/gave-up': 'The check took too long or too much memory.',
  'api/internal': 'Something inside the server failed.',
} as const;

/** Code → what it means. */
export const FAILURES = {
  ...plan,
  ...value,
  ...text,
  ...image,
  ...table,
  ...rules,
  ...build,
  ...faults,
  ...run,
  ...edit,
  ...file,
  ...command,
  ...page,
  ...cli,
  ...api,
};

export type FailureCode = keyof typeof FAILURES;
