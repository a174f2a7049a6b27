// SPDX-License-Identifier: Apache-2.0
// A photograph of a house that does not exist, made from a known camera, so that the tests know what is to be found:
// the front wall of the demo garden's house, 16 m by 3 m, seen from the street. PNG (ISO/IEC 15948), 8-bit RGB.
import { deflateSync } from 'node:zlib';

export const size = { width: 960, height: 640 };

/** The camera: a pinhole at `position`, looking at `target`, upright; from aside, so that four corners fix it well. */
export const camera = { focal: 800, position: [7, 5, 1.6], target: [16, 16, 1.8] };

const minus = (a, b) => a.map((value, index) => value - b[index]);
const dot = (a, b) => a.reduce((sum, value, index) => sum + value * b[index], 0);
const cross = ([a, b, c], [x, y, z]) => [b * z - c * y, c * x - a * z, a * y - b * x];
const unit = (a) => a.map((value) => value / Math.hypot(...a));

const ahead = unit(minus(camera.target, camera.position));
const right = unit(cross(ahead, [0, 0, 1]));
const down = cross(ahead, right);

/** Where the photograph shows a place of the garden. */
export function pixelOf(place) {
  const way = minus(place, camera.position);
  const depth = dot(way, ahead);
  return [size.width / 2 + (camera.focal * dot(way, right)) / depth, size.height / 2 + (camera.focal * dot(way, down)) / depth];
}

/** The wall in the garden: lower left, lower right, upper right, upper left as seen from the street. */
export const wall = { left: [12, 16, 0], right: [22, 16, 0], height: 3 };
export const corners = [wall.left, wall.right, [...wall.right.slice(0, 2), wall.height], [...wall.left.slice(0, 2), wall.height]];

function wayOf(x, y) {
  const [across, below] = [(x - size.width / 2) / camera.focal, (y - size.height / 2) / camera.focal];
  return ahead.map((value, index) => value + right[index] * across + down[index] * below);
}

function colourAt(x, y) {
  const way = wayOf(x + 0.5, y + 0.5);
  const toWall = (wall.left[1] - camera.position[1]) / way[1];
  const [wx, , wz] = camera.position.map((value, index) => value + way[index] * toWall);
  const onWall = toWall > 0 && wx >= wall.left[0] && wx <= wall.right[0] && wz >= 0 && wz <= wall.height;
  // Courses of boards, so that there is something to see.
  if (onWall) return Math.floor(wz / 0.25) % 2 === 0 ? [214, 204, 188] : [198, 186, 168];
  if (way[2] >= 0 && !(toWall > 0 && wz < wall.height)) return [150, 184, 222];
  const toGround = -camera.position[2] / way[2];
  const [gx, gy] = camera.position.map((value, index) => value + way[index] * toGround);
  if (way[2] >= 0 || gy > 16) return [150, 184, 222];
  return (Math.floor(gx) + Math.floor(gy)) % 2 === 0 ? [104, 138, 82] : [92, 124, 72];
}

const crcTable = Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; ++k) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c >>> 0;
});

function chunk(type, data) {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const crc = body.reduce((value, byte) => crcTable[(value ^ byte) & 255] ^ (value >>> 8), 0xffffffff);
  const frame = Buffer.alloc(8);
  frame.writeUInt32BE(data.length, 0);
  frame.writeUInt32BE((crc ^ 0xffffffff) >>> 0, 4);
  return Buffer.concat([frame.subarray(0, 4), body, frame.subarray(4)]);
}

/** The photograph as a PNG file. */
export function photograph() {
  const { width, height } = size;
  const rows = Buffer.alloc(height * (1 + width * 3));
  for (let y = 0; y < height; ++y) {
    for (let x = 0; x < width; ++x) rows.set(colourAt(x, y), y * (1 + width * 3) + 1 + x * 3);
  }
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 2, 0, 0, 0], 8);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([signature, chunk('IHDR', head), chunk('IDAT', deflateSync(rows)), chunk('IEND', Buffer.alloc(0))]);
}
