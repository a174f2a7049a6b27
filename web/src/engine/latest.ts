// SPDX-License-Identifier: Apache-2.0
// Latest wins: while one question is being answered only the newest of those that came since is kept. So a drag never
// queues up work, and the last position is always answered.

export class LatestWins<Question, Answer> {
  #ask: (question: Question) => Promise<Answer>;
  #tell: (answer: Answer, question: Question) => void;
  #fail: (error: unknown, question: Question) => void;
  #waiting: { question: Question } | undefined;
  #busy = false;

  constructor(
    ask: (question: Question) => Promise<Answer>,
    tell: (answer: Answer, question: Question) => void,
    fail: (error: unknown, question: Question) => void,
  ) {
    this.#ask = ask;
    this.#tell = tell;
    this.#fail = fail;
  }

  get busy(): boolean {
    return this.#busy;
  }

  /** Whether a newer question waits than the one that is being answered. */
  get hasNewer(): boolean {
    return this.#waiting !== undefined;
  }

  put(question: Question): void {
    this.#waiting = { question };
    if (!this.#busy) void this.#work();
  }

  async #work(): Promise<void> {
    this.#busy = true;
    while (this.#waiting) {
      const { question } = this.#waiting;
      this.#waiting = undefined;
      try {
        this.#tell(await this.#ask(question), question);
      } catch (error) {
        this.#fail(error, question);
      }
    }
    this.#busy = false;
  }
}
