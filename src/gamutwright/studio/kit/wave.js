// @ts-check
// Samples as a WAV file: one channel, 24 bits, which a quiet voice needs and a take of five minutes affords.

const HEAD = 44, TOP = 0x7fffff;

/**
 * @param {Float32Array[]} pieces samples from -1 to 1
 * @param {number} rate samples a second
 * @returns {Blob}
 */
export function toWave(pieces, rate) {
  const count = pieces.reduce((sum, piece) => sum + piece.length, 0);
  const head = new DataView(new ArrayBuffer(HEAD));
  /** @param {number} at @param {string} text */
  const write = (at, text) => [...text].forEach((sign, index) => head.setUint8(at + index, sign.charCodeAt(0)));
  write(0, "RIFF");
  head.setUint32(4, HEAD - 8 + 3 * count, true);
  write(8, "WAVEfmt ");
  head.setUint32(16, 16, true);
  head.setUint16(20, 1, true);
  head.setUint16(22, 1, true);
  head.setUint32(24, rate, true);
  head.setUint32(28, 3 * rate, true);
  head.setUint16(32, 3, true);
  head.setUint16(34, 24, true);
  write(36, "data");
  head.setUint32(40, 3 * count, true);
  return new Blob([head.buffer, ...pieces.map(packed)], { type: "audio/wav" });
}

/** @param {Float32Array} samples @returns {Uint8Array<ArrayBuffer>} */
function packed(samples) {
  const bytes = new Uint8Array(3 * samples.length);
  samples.forEach((sample, index) => {
    const value = Math.round(Math.max(-1, Math.min(1, sample)) * TOP);
    bytes[3 * index] = value & 255;
    bytes[3 * index + 1] = (value >> 8) & 255;
    bytes[3 * index + 2] = (value >> 16) & 255;
  });
  return bytes;
}
