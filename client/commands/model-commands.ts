/** What the bench is computed with, by name: wire resistance, outputs; and a new part for a damaged one. */
import { failed, setField } from '../../sim-core/index.ts';
import { replacement } from '../state/damage-text.ts';
import type { Command } from './command.ts';
import { said } from './line.ts';
import { partNamed, partOffers } from './name-lookup.ts';

const wiring: Command = {
  name: 'wire resistance',
  synonyms: ['wiring resistance', 'wiring'],
  group: 'Building',
  means: 'compute with the resistance of wires and rails, or without',
  example: 'wire resistance on',
  takes: [
    {
      shown: 'on or off',
      few: true,
      offers: () => [
        { word: 'on', means: 'wires and rails have resistance' },
        { word: 'off', means: 'wires and rails are ideal' },
      ],
    },
  ],
  run([word = ''], { session }) {
    const plan = session.model?.plan;
    if (!plan || (word !== 'on' && word !== 'off')) return failed('command/bad-word', word, `"${word}" is neither on nor off.`);
    session.edit(setField(plan, 'wiring', word === 'on' ? 'real' : undefined));
    return said(word === 'on' ? 'Wires and rails now have resistance.' : 'Wires and rails are now ideal.');
  },
};

const outputs: Command = {
  name: 'outputs',
  synonyms: ['output strength', 'drive'],
  group: 'Building',
  means: 'compute with typical outputs, or with guaranteed ones',
  example: 'outputs guaranteed',
  takes: [
    {
      shown: 'typical or guaranteed',
      few: true,
      offers: () => [
        { word: 'typical', means: 'outputs as typical parts have them' },
        { word: 'guaranteed', means: 'no more than the data sheets guarantee' },
      ],
    },
  ],
  run([word = ''], { session }) {
    const plan = session.model?.plan;
    if (!plan || (word !== 'typical' && word !== 'guaranteed'))
      return failed('command/bad-word', word, `Outputs are typical or guaranteed, not "${word}".`);
    session.edit(setField(plan, 'outputs', word === 'guaranteed' ? word : undefined));
    return said(word === 'guaranteed' ? 'Outputs now as guaranteed.' : 'Outputs now as typical.');
  },
};

const replace: Command = {
  name: 'replace',
  synonyms: ['renew', 'repair', 'swap'],
  group: 'Building',
  means: 'replace a damaged part with a new one',
  example: 'replace LED3',
  takes: [{ shown: 'PART', offers: partOffers((s) => Boolean(s.part.damaged)) }],
  run([word = ''], context) {
    const found = partNamed(word, context);
    if (!found.ok) return found;
    const plan = context.session.model?.plan;
    const change = plan && replacement(plan, found.value.part.id);
    if (!change) return failed('command/not-possible', word, `${found.value.part.id} is not damaged.`);
    context.session.edit(change);
    return said(`${found.value.part.id} replaced.`);
  },
};

export const MODEL_COMMANDS: readonly Command[] = [wiring, outputs, replace];
