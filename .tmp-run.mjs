import { createServer } from 'vite';
const s = await createServer({ configFile:false, root:'/work/main', server:{middlewareMode:true,watch:null,hmr:false}, appType:'custom', logLevel:'error' });
const m = await s.ssrLoadModule('/sim-core/index.ts');
const { readPlan } = await s.ssrLoadModule('/shared/read-plan.ts');
const fs = await import('node:fs');
const p = readPlan(fs.readFileSync('/work/main/shared/demos/greenhouse-blank.plan.json','utf8'));
const T=(n,f)=>{const t=performance.now();const r=f();console.log(n,(performance.now()-t).toFixed(1));return r};
for(const opt of [{bounce:false},{bounce:true}]){
const sim = m.simulate(p.value,opt).value;
T('on',()=>{sim.act({do:'set',part:'PS1',pole:0,closed:true});});
sim.begin({do:'set',part:'S3',pole:0,closed:true});
for(let i=0;i<30;i++) T('w'+i+' '+sim.now,()=>sim.wait(i<10?1e-7:1e-4));
T('rest',()=>console.log(sim.rest(),sim.now));
T('findings',()=>m.findingsNow(sim).length);
T('why',()=>m.sayWhy(m.whyLamp(sim,'L0'),sim.plan()));
T('press',()=>{sim.begin({do:'press',part:'S4'});sim.wait(1e-6);});
T('rest',()=>console.log(sim.rest(),sim.now));
T('findings',()=>m.findingsNow(sim).length);
T('sweep',()=>m.sweep(sim.plan()));
console.log(sim.events.length);
}
await s.close();process.exit();
