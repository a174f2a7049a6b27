// SPDX-License-Identifier: Apache-2.0
// `duskwire serve` on a workspace of its own, for the tests beside this file; may be killed and started again.
import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { after, before } from 'node:test';
import { describeFailures, launch, until } from './browser.mjs';

const root = resolve(import.meta.dirname, '../../..');
const program = resolve(root, process.env.DUSKWIRE_PROGRAM ?? 'build/release/duskwire');

export class Server {
  #folder = mkdtempSync(join(tmpdir(), 'duskwire-e2e-'));
  #process;
  #port = 0;
  #more;
  address = '';
  said = '';

  constructor(...more) {
    this.#more = more;
  }

  async start() {
    const given = ['serve', '--port', String(this.#port), '--workspace', this.#workspace, '--page', resolve(root, 'web/dist'), '--add', resolve(root, 'examples/ostrey-garden.json'), ...this.#more];
    this.#process = spawn(program, given, { stdio: ['ignore', 'pipe', 'pipe'] });
    this.said = '';
    const failed = once(this.#process, 'exit').then(([code]) => Promise.reject(new Error(`duskwire serve ended with ${code}: ${this.said}`)));
    const ready = new Promise((done) => {
      this.#process.stderr.on('data', (text) => (this.said += text));
      this.#process.stdout.on('data', (text) => {
        this.said += text;
        const address = /http:\S+#token=\S+/.exec(this.said)?.[0];
        if (address) done(address);
      });
    });
    this.address = await Promise.race([ready, failed]);
    failed.catch(() => undefined);
    this.#port = Number(new URL(this.address).port);
  }

  get port() {
    return this.#port;
  }

  /** The last match in what it has said or is about to say. */
  hears(pattern) {
    return until(() => {
      const found = [...this.said.matchAll(new RegExp(pattern, 'g'))].at(-1);
      if (!found) throw new Error(`the server never said ${pattern}: ${this.said}`);
      return found;
    });
  }

  get #workspace() {
    return join(this.#folder, 'gardens.duskwire');
  }

  /** A copy of its workspace, by the command and while it is served. */
  backUp(name) {
    const file = join(this.#folder, name);
    execFileSync(program, ['backup', this.#workspace, '--output', file]);
    return file;
  }

  /** The disk failed: the workspace is that of the copy again, as after a restart. */
  async putBack(file) {
    await this.kill();
    for (const ending of ['', '-wal']) rmSync(this.#workspace + ending, { force: true });
    execFileSync(program, ['restore', file, '--output', this.#workspace]);
    await this.start();
  }

  /** `duskwire devices` on its workspace. */
  devices(...more) {
    return execFileSync(program, ['devices', this.#workspace, ...more], { encoding: 'utf8' });
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

/** Browser and server of one file of tests: there from its first test to its last. `more`: further words for each. */
export function servedStand(more = {}) {
  const here = { server: new Server(...(more.server ?? [])) };
  before(async () => {
    here.browser = await launch(more.browser);
    await here.server.start();
  });
  describeFailures(here);
  after(async () => {
    await here.browser?.close();
    await here.server.end();
  });
  return here;
}
