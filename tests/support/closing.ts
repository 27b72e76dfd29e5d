/** A reporter that ends the run with one plain line. */
import type { Reporter, TestModule } from 'vitest/node';
export default class Closing implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[], reason: string) {
    const n = { passed: 0, failed: 0, skipped: 0, pending: 0 };
    for (const m of modules) {
      for (const t of m.children.allTests()) n[t.result().state]++;
      if (m.state() === 'failed' && m.errors().length) n.failed++;
    }
    n.failed += errors.length;
    if (reason === 'failed' && n.failed === 0) n.failed = 1;
    setImmediate(() => console.log(`${n.passed} passed, ${n.failed} failed, ${n.skipped + n.pending} skipped`));
  }
}
