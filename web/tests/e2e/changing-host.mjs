// SPDX-License-Identifier: Apache-2.0
// A static host of the built page that changes under the open page: another version, a file that breaks off, a worker
// that is gone or another one.
import { once } from 'node:events';
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join, resolve } from 'node:path';

const dist = resolve(import.meta.dirname, '../../dist');
const types = {
  '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.wasm': 'application/wasm', '.svg': 'image/svg+xml', '.png': 'image/png',
  '.jpg': 'image/jpeg', '.json': 'application/json', '.webmanifest': 'application/manifest+json', '.woff2': 'font/woff2',
};

export class ChangingHost {
  /** Another text, another version of the page. */
  version = 1;
  /** The ending of a file's name whose download breaks off. */
  breaks;
  /** In the place of the worker: a text, or 404. */
  worker;
  #server = createServer((request, response) => void this.#answer(request, response));

  async start() {
    this.#server.listen(0, '127.0.0.1');
    await once(this.#server, 'listening');
    return `http://localhost:${this.#server.address().port}/`;
  }

  stop() {
    this.#server.closeAllConnections();
    this.#server.close();
  }

  async #answer(request, response) {
    const path = new URL(request.url, 'http://host').pathname;
    const name = path === '/' ? 'index.html' : path.slice(1);
    let content = name === 'service-worker.js' ? await this.#workerText() : await readFile(join(dist, name)).catch(() => undefined);
    if (content === undefined || name.includes('..')) return response.writeHead(404).end();
    content = Buffer.from(content);
    response.writeHead(200, { 'Content-Type': types[extname(name)] ?? 'application/octet-stream', 'Content-Length': content.length, 'Cache-Control': 'no-cache' });
    if (this.breaks && name.endsWith(this.breaks)) {
      response.write(content.subarray(0, content.length / 2));
      return setTimeout(() => request.socket.destroy(), 50);
    }
    response.end(content);
  }

  async #workerText() {
    if (this.worker === 404) return undefined;
    const text = this.worker ?? (await readFile(join(dist, 'service-worker.js'), 'utf8'));
    return text.replace(/const version = '([^']+)'/, (_, version) => `const version = '${version}-${this.version}'`);
  }
}
