/** Types of the general ODE library used as an oracle: the package ships TypeScript sources that a strict compiler refuses. */
export class Solver {
  constructor(n: number);
  absoluteTolerance: number;
  relativeTolerance: number;
  maxSteps: number;
  solve(f: (x: number, y: number[]) => number[], x: number, y: number[], xEnd: number): { y: number[]; outcome: number };
}
