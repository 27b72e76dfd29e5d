/** A plan from its text: parsed, its version looked at first, then held against the schema; or one sentence that says what is wrong and where. */
import { Errors } from 'typebox/schema';
import { grouped } from './grouped.ts';
import { findJsonFault } from './json-syntax.ts';
import { done, failed, type Outcome } from './outcome.ts';
import { type CountedSchema, findOverfull } from './overfull.ts';
import schema from './plan.schema.json' with { type: 'json' };
import type { Plan } from './plan.ts';
import { namedPoles } from './pole-names.ts';
import { quotedValue } from './quoted.ts';
import { sayMisfit } from './schema-text.ts';
import { checkTable } from './table-fits.ts';
import { PLAN_VERSION, upgradePlan } from './upgrade-plan.ts';

export function readPlan(text: string): Outcome<Plan> {
  let document: unknown;
  try {
    document = JSON.parse(text);
  } catch {
    return notJson(text);
  }
  const version = checkVersion(document);
  if (!version.ok) return version;
  const plan = upgradePlan(document as Readonly<Record<string, unknown>>);
  const overfull = findOverfull(plan, schema as CountedSchema);
  if (overfull) {
    const { at, entries, most } = overfull;
    return failed(
      'plan/outside-schema',
      at,
      `${at} has ${grouped(entries)} entries: a plan takes ${grouped(most)} there, so leave some out.`,
    );
  }
  const [fits, misfits] = Errors(schema, plan);
  if (fits) return checkIds(plan as Plan);
  const { at, says } = sayMisfit(plan, schema, misfits);
  return failed('plan/outside-schema', at, says);
}

/** Hands and memories are looked up by id in plain objects, which have a few names of their own. */
function checkIds(plan: Plan): Outcome<Plan> {
  for (const list of ['boards', 'parts', 'wires'] as const)
    for (const [i, { id }] of plan[list].entries())
      if (id in {})
        return failed(
          'plan/reserved-id',
          `${list}/${i}/id`,
          `${list}/${i}/id is "${id}", a word that the program keeps for itself: choose another id.`,
        );
  const names = checkPoleNames(plan);
  return names.ok && plan.wanted ? checkTable(plan, plan.wanted) : names;
}

function checkPoleNames(plan: Plan): Outcome<Plan> {
  const poles = namedPoles(plan);
  for (const [i, { id, poleNames = [] }] of plan.parts.entries())
    for (const [pole, name] of poleNames.entries()) {
      const first = poles.get(name.toLowerCase());
      if (!first || (first.part === id && first.pole === pole)) continue;
      const at = `parts/${i}/poleNames/${pole}`;
      return failed(
        'plan/name-taken',
        at,
        `${at} is ${JSON.stringify(name)}, as pole ${first.pole + 1} of ${first.part} is called: give one of the two another name.`,
      );
    }
  return done(plan);
}

function notJson(text: string): Outcome<never> {
  if (text.trim() === '') return failed('plan/empty', '', 'The plan is empty. Choose a file that ends in .plan.json.');
  const fault = findJsonFault(text);
  if (!fault) throw new Error('JSON.parse refused a text in which no fault was found');
  const at = `line ${fault.line}, column ${fault.column}`;
  return failed(
    'plan/broken-json',
    at,
    fault.cutOff
      ? `The plan is cut off: it ends at ${at} in the middle of something. Copy or save the whole file again.`
      : `The plan cannot be read from ${at} on: ${JSON.stringify(text.slice(fault.offset, fault.offset + 12).split('\n')[0])} does not belong there. Fix that place or save the plan again.`,
  );
}

function checkVersion(document: unknown): Outcome<void> {
  if (typeof document !== 'object' || document === null || Array.isArray(document) || !('format' in document))
    return failed('plan/not-a-plan', 'format', 'This is not a Lampwright plan: it does not begin with "format": "lampwright-plan".');
  if (document.format !== 'lampwright-plan')
    return failed(
      'plan/not-a-plan',
      'format',
      `This is not a Lampwright plan: its format is ${quotedValue(document.format)} and should be "lampwright-plan".`,
    );
  const version = 'version' in document ? document.version : undefined;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return failed(
      'plan/unknown-version',
      'version',
      `The plan's version is ${version === undefined ? 'missing' : quotedValue(version)}; it should be a whole number from 1 to ${PLAN_VERSION}.`,
    );
  if (version > PLAN_VERSION)
    return failed(
      'plan/unknown-version',
      'version',
      `The plan is version ${version}, newer than the version ${PLAN_VERSION} that this Lampwright knows. Open it with a newer Lampwright.`,
    );
  return done(undefined);
}
