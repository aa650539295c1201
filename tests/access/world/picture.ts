import { deflateSync, crc32 } from 'node:zlib';

/** A chunk of a PNG (ISO/IEC 15948, 5.3): length, name, data, and the check sum of the two. */
function chunk(name: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const head = Buffer.alloc(4);
  head.writeUInt32BE(data.length);
  const sum = Buffer.alloc(4);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([head, body, sum]);
}

/** A picture of one grey point. */
export const tinyPng: Buffer = Buffer.concat([
  Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
  // Width and height 1, eight bits, grey, and no choice in the rest.
  chunk('IHDR', Buffer.from([0, 0, 0, 1, 0, 0, 0, 1, 8, 0, 0, 0, 0])),
  // One line: no filter, one point.
  chunk('IDAT', deflateSync(Buffer.from([0, 128]))),
  chunk('IEND', Buffer.alloc(0)),
]);
