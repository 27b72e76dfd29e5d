/** Times that never go back, as many as there are, in one array that grows. */

const FIRST_ROOM = 1024;

export class Times {
  private all = new Float64Array(FIRST_ROOM);
  length = 0;

  push(time: number): void {
    if (this.length === this.all.length) {
      const more = new Float64Array(2 * this.length);
      more.set(this.all);
      this.all = more;
    }
    this.all[this.length] = time;
    this.length += 1;
  }

  /** How many of them are not after this one. */
  until(time: number): number {
    let [least, most] = [0, this.length];
    while (least < most) {
      const middle = (least + most) >> 1;
      if ((this.all[middle] as number) <= time) least = middle + 1;
      else most = middle;
    }
    return least;
  }
}
