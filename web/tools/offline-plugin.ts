// SPDX-License-Identifier: Apache-2.0
// Puts the names of all built files, and a version made of their content, into the service worker.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin } from 'vite';

export function offlinePlugin(source: string, publicFolder: string): Plugin {
  return {
    name: 'duskwire-offline',
    apply: 'build',
    enforce: 'post',
    generateBundle(_, bundle) {
      const hash = createHash('sha256');
      const names: string[] = [];
      const note = (name: string, content: string | Uint8Array): void => {
        // The page by its folder: hosts may redirect its file name, and a redirected answer cannot be kept.
        names.push(name === 'index.html' ? './' : `./${name}`);
        hash.update(name).update(content);
      };
      for (const [name, part] of Object.entries(bundle).sort(([a], [b]) => a.localeCompare(b))) {
        note(name, part.type === 'asset' ? part.source : part.code);
      }
      for (const name of readdirSync(publicFolder).sort()) note(name, readFileSync(join(publicFolder, name)));
      const text = readFileSync(source, 'utf8')
        .replace('__VERSION__', hash.digest('hex').slice(0, 16))
        .replace('__FILES__', JSON.stringify(names, null, 2));
      this.emitFile({ type: 'asset', fileName: 'service-worker.js', source: text });
    },
  };
}
