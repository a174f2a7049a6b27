// SPDX-License-Identifier: Apache-2.0
import { expect, it } from 'vitest';
import { LatestWins } from '../../../src/engine/latest';

it('answers the first and the newest, never what lies between, and never two at once', async () => {
  const asked: number[] = [];
  const told: number[] = [];
  let running = 0;
  const queue = new LatestWins<number, number>(
    async (question) => {
      running += 1;
      expect(running).toBe(1);
      asked.push(question);
      await new Promise((resolve) => setTimeout(resolve, 5));
      running -= 1;
      if (question === 50) throw new Error('refused');
      return question * 10;
    },
    (answer) => told.push(answer),
    (_, question) => told.push(-question),
  );
  for (let question = 1; question <= 40; question += 1) queue.put(question);
  await new Promise((resolve) => setTimeout(resolve, 30));
  expect(asked).toEqual([1, 40]);
  expect(told).toEqual([10, 400]);
  queue.put(50);
  queue.put(60);
  await new Promise((resolve) => setTimeout(resolve, 30));
  expect(told).toEqual([10, 400, -50, 600]);
  expect(queue.busy).toBe(false);
});
