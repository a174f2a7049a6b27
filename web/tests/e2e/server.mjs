// SPDX-License-Identifier: Apache-2.0
// `duskwire serve` on a workspace of its own, for the tests beside this file; may be killed and started again.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

const root = resolve(import.meta.dirname, '../../..');
const program = resolve(root, process.env.DUSKWIRE_PROGRAM ?? 'build/release/duskwire');

export class Server {
  #folder = mkdtempSync(join(tmpdir(), 'duskwire-e2e-'));
  #process;
  #port = 0;
  address = '';

  async start() {
    const given = ['serve', '--port', String(this.#port), '--workspace', join(this.#folder, 'gardens.duskwire'), '--page', resolve(root, 'web/dist'), '--add', resolve(root, 'examples/ostrey-garden.json')];
    this.#process = spawn(program, given, { stdio: ['ignore', 'pipe', 'pipe'] });
    let said = '';
    const failed = once(this.#process, 'exit').then(([code]) => Promise.reject(new Error(`duskwire serve ended with ${code}: ${said}`)));
    const ready = new Promise((done) => {
      this.#process.stderr.on('data', (text) => (said += text));
      this.#process.stdout.on('data', (text) => {
        said += text;
        const address = /http:\S+#token=\S+/.exec(said)?.[0];
        if (address) done(address);
      });
    });
    this.address = await Promise.race([ready, failed]);
    failed.catch(() => undefined);
    this.#port = Number(new URL(this.address).port);
  }

  /** As a power cut does it. */
  async kill() {
    const ended = once(this.#process, 'exit');
    this.#process.kill('SIGKILL');
    await ended;
  }

  async end() {
    if (this.#process.exitCode === null && this.#process.signalCode === null) await this.kill();
    rmSync(this.#folder, { recursive: true });
  }
}
