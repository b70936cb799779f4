/**
 * A queue of one: while an order is being worked on, only the newest of those that came in meanwhile is kept. However
 * fast orders come, the answer is never more than one order behind, and none piles up.
 */
export class LatestWins<Order> {
  readonly #send: (order: Order) => void;
  readonly #dropped: (order: Order) => void;
  #busy = false;
  #waiting: Order | undefined;

  /**
   * @param send begins the work on an order; its end is told by `done`
   * @param dropped told each order that a newer one took the place of
   */
  constructor(send: (order: Order) => void, dropped: (order: Order) => void = () => undefined) {
    this.#send = send;
    this.#dropped = dropped;
  }

  /** Whether an order is being worked on. */
  get busy(): boolean {
    return this.#busy;
  }

  /** Sends an order, at once or as soon as the one under way is done. */
  ask(order: Order): void {
    if (this.#busy) {
      const older = this.#waiting;
      this.#waiting = order;
      if (older !== undefined) this.#dropped(older);
      return;
    }
    this.#busy = true;
    this.#send(order);
  }

  /** The order under way is done: the newest that waits is sent. */
  done(): void {
    const next = this.#waiting;
    this.#waiting = undefined;
    this.#busy = next !== undefined;
    if (next !== undefined) this.#send(next);
  }

  /** Forgets the order that waits. */
  forget(): void {
    const older = this.#waiting;
    this.#waiting = undefined;
    if (older !== undefined) this.#dropped(older);
  }
}
