import { test } from 'vitest';
import { readFileSync } from 'node:fs';
import { findingsNow, plain, rehearse, sayFinding, simulate } from '../../sim-core/index.ts';
test('show', () => {
    const plan = JSON.parse(readFileSync('shared/demos/greenhouse-blank.plan.json', 'utf8'));
    console.log('## ', plan.parts.filter((p:any)=>!/led|resistor/.test(p.kind)).map((p: any) => p.id+' '+p.kind+' '+(p.label??'')).join('; '), JSON.stringify(plan.hands), plan.notes.join('|'));
    console.log('## ', JSON.stringify(plan.parts.filter((p:any)=>/resistor|capac/.test(p.kind))));
    const ps = plan.parts.find((p: any) => p.kind.includes('supply')).id;
    const btn = plan.parts.find((p: any) => p.kind.includes('button')).id;
    for (let seed = 1; seed < 30; seed++) {
    const s = simulate(plan, { bounce: true, seed }); if (!s.ok) throw s.failure;
    s.value.act({ do: 'set', part: ps, pole: 0, closed: true });
    for (const c of s.value.circuit.contacts) if (c.placed.part.label?.includes('OE')||/output/.test(c.placed.part.label ?? '')) s.value.act({do:'set', part:c.placed.part.id, pole: c.pole, closed: true});
    console.log('## ready: ' + JSON.stringify(s.value.readings().chips.map(c=>c.state)));
    s.value.act({ do: 'press', part: btn });
    s.value.act({ do: 'release', part: btn });
    console.log('## ev ' + s.value.events.map(e => e.outcome + ':' + e.faults.map(f => f.fault)));
    console.log('## f ' + findingsNow(s.value).map(f => `  [${f.severity}] ${f.code} @${f.at.map(a=>a.id)}: ${plain(sayFinding(f, plan))}`).join('\n## f'));
    }
});
