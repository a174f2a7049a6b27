// SPDX-License-Identifier: Apache-2.0
// SHA-256 (FIPS 180-4). The browser's own where it offers it; it does not on a page from a bare network address, so
// the plain computation stands beside it.

export async function sha256Hex(bytes: ArrayBuffer): Promise<string> {
  const subtle = globalThis.crypto?.subtle;
  const digest = subtle ? new Uint8Array(await subtle.digest('SHA-256', bytes)) : sha256(new Uint8Array(bytes));
  return [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

// Section 4.2.2: the first 32 bits of the fractional parts of the cube roots of the first 64 primes; section 5.3.3:
// of the square roots of the first eight.
const fraction = (root: number): number => Math.floor((root - Math.floor(root)) * 2 ** 32) >>> 0;
const primes = firstPrimes(64);
const constants = primes.map((prime) => fraction(Math.cbrt(prime)));
const initial = primes.slice(0, 8).map((prime) => fraction(Math.sqrt(prime)));

function firstPrimes(count: number): number[] {
  const found: number[] = [];
  for (let candidate = 2; found.length < count; candidate += 1) {
    if (found.every((prime) => candidate % prime !== 0)) found.push(candidate);
  }
  return found;
}

const turn = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

export function sha256(message: Uint8Array): Uint8Array {
  const padded = pad(message);
  const view = new DataView(padded.buffer);
  const hash = [...initial];
  for (let offset = 0; offset < padded.length; offset += 64) compress(hash, schedule(view, offset));
  const digest = new DataView(new ArrayBuffer(32));
  hash.forEach((word, index) => digest.setUint32(index * 4, word));
  return new Uint8Array(digest.buffer);
}

function pad(message: Uint8Array): Uint8Array<ArrayBuffer> {
  const length = Math.ceil((message.length + 9) / 64) * 64;
  const padded = new Uint8Array(length);
  padded.set(message);
  padded[message.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(length - 8, Math.floor((message.length * 8) / 2 ** 32));
  view.setUint32(length - 4, (message.length * 8) >>> 0);
  return padded;
}

function schedule(view: DataView, offset: number): Uint32Array {
  const words = new Uint32Array(64);
  for (let t = 0; t < 16; t += 1) words[t] = view.getUint32(offset + t * 4);
  for (let t = 16; t < 64; t += 1) {
    const w15 = words[t - 15]!;
    const w2 = words[t - 2]!;
    const s0 = turn(w15, 7) ^ turn(w15, 18) ^ (w15 >>> 3);
    const s1 = turn(w2, 17) ^ turn(w2, 19) ^ (w2 >>> 10);
    words[t] = words[t - 16]! + s0 + words[t - 7]! + s1;
  }
  return words;
}

// Section 6.2.2, with the letters of the standard.
function compress(hash: number[], words: Uint32Array): void {
  let [a, b, c, d, e, f, g, h] = hash as [number, number, number, number, number, number, number, number];
  for (let t = 0; t < 64; t += 1) {
    const t1 = (h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + ((e & f) ^ (~e & g)) + constants[t]! + words[t]!) | 0;
    const t2 = ((turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + t1) | 0, c, b, a, (t1 + t2) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, index) => (hash[index] = (hash[index]! + word) | 0));
}
