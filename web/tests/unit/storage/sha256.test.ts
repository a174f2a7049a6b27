// SPDX-License-Identifier: Apache-2.0
// Expected digests: the examples that NIST publishes with FIPS 180-4 ("abc", the 448-bit message, a million "a"),
// from memory; beyond them Node's own implementation is the referee.
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { sha256 } from '../../../src/storage/sha256';

const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex');
const ofText = (text: string): string => hex(sha256(new TextEncoder().encode(text)));

describe('sha256', () => {
  it('gives the published digests', () => {
    expect(ofText('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
    expect(ofText('abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq')).toBe(
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    );
    expect(ofText('a'.repeat(1_000_000))).toBe('cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0');
  });

  it('agrees with an independent implementation at every length around a block', () => {
    for (let length = 0; length < 200; length += 1) {
      const bytes = Uint8Array.from({ length }, (_, index) => (index * 37 + length) & 255);
      expect(hex(sha256(bytes))).toBe(createHash('sha256').update(bytes).digest('hex'));
    }
  });
});
