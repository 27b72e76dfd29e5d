/** The API: health, demonstration plans, the plan's schema, and the check. Shapes and statuses: shared/api.ts. */
import type { FastifyInstance } from 'fastify';
import { version } from '../package.json' with { type: 'json' };
import type { Health, PlanList } from '../shared/api.ts';
import { DEMO_PLANS, demoPlan } from '../shared/demo-plans.ts';
import { didYouMean, nearestNames } from '../shared/misspelling.ts';
import planSchema from '../shared/plan.schema.json' with { type: 'json' };
import type { Checker } from './check/check-thread.ts';
import { refuse } from './error-handler.ts';

export function serveApi(app: FastifyInstance, checker: Checker): void {
  // A plan is read by our own reader, which names the place where a text breaks off.
  app.removeContentTypeParser(['application/json', 'text/plain']);
  app.addContentTypeParser('application/json', { parseAs: 'string' }, (_request, body, next) => next(null, body));

  app.get('/api/health', async (): Promise<Health> => ({ ok: true, version }));

  app.get(
    '/api/plans',
    async (): Promise<PlanList> =>
      DEMO_PLANS.map(({ id, plan, teaches }) => ({ id, title: plan.title, says: plan.notes[0] ?? '', ...(teaches ? { teaches } : {}) })),
  );

  app.get<{ Params: { id: string } }>('/api/plans/:id', async (request, reply) => {
    const { id } = request.params;
    const plan = demoPlan(id);
    const ids = DEMO_PLANS.map((d) => d.id);
    const nearest = didYouMean(nearestNames(id, ids));
    return (
      plan ??
      refuse(reply, 404, {
        code: 'api/not-found',
        at: 'id',
        says: `There is no demonstration called ${id}.${nearest || ` There are ${ids.join(', ')}.`}`,
      })
    );
  });

  app.get('/api/schema/plan', async () => planSchema);

  app.post<{ Body: string | undefined }>('/api/check', async (request, reply) => {
    const left = new AbortController();
    reply.raw.once('close', () => left.abort());
    const checked = await checker.check(request.body ?? '', left.signal);
    if (checked.ok) return checked.value;
    const { failure } = checked;
    return refuse(reply, failure.code.startsWith('api/') ? 503 : 422, failure);
  });
}
