/** Numbers that are joined into groups, each known by one of its numbers. */

export class Joined {
  private readonly parent: Int32Array;

  /** Each alone. */
  constructor(count: number) {
    this.parent = new Int32Array(count);
    for (let i = 0; i < count; i++) this.parent[i] = i;
  }

  /** The number by which the group of this one is known. */
  root(i: number): number {
    const { parent } = this;
    let root = i;
    while (parent[root] !== root) root = parent[root] as number;
    parent[i] = root;
    return root;
  }

  /** The group of a stays known by its number. */
  join(a: number, b: number): void {
    this.parent[this.root(b)] = this.root(a);
  }
}
