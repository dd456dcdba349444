/** A list of numbers of a fixed width that grows; a million of them cost what they cost and no more. */
export class GrowingList<Kind extends Float64Array<ArrayBuffer> | Int32Array<ArrayBuffer> | Uint8Array<ArrayBuffer>> {
  length = 0;
  private held: Kind;
  constructor(first: Kind) {
    this.held = first;
  }
  add(value: number): void {
    if (this.length === this.held.length) {
      const next = new (this.held.constructor as new (size: number) => Kind)(Math.max(1024, this.held.length * 2));
      next.set(this.held);
      this.held = next;
    }
    this.held[this.length] = value;
    this.length += 1;
  }
  at(index: number): number {
    return this.held[index] as number;
  }
  /** What is held, as a list of just its length. */
  values(): Kind {
    return this.held.slice(0, this.length) as Kind;
  }
}
