// Numbers of any width out of a stretch of bits, most significant bit first.

/** `view` reaches beyond the last bit (`padded`). */
export function bitsInto(
  view: DataView,
  fromBit: number,
  width: number,
  out: Uint32Array,
  from: number,
  to: number,
): void {
  if (width === 0) out.fill(0, from, to);
  else if (width <= 25) narrowInto(view, fromBit, width, out, from, to);
  else for (let i = from, bit = fromBit; i < to; i += 1, bit += width) out[i] = wideAt(view, bit, width);
}

function narrowInto(
  view: DataView,
  fromBit: number,
  width: number,
  out: Uint32Array,
  from: number,
  to: number,
): void {
  const shift = 32 - width;
  let bit = fromBit;
  for (let i = from; i < to; i += 1) {
    out[i] = (view.getUint32(bit >>> 3) << (bit & 7)) >>> shift;
    bit += width;
  }
}

/** One number of 1 … 32 bits. */
export function wideAt(view: DataView, bit: number, width: number): number {
  const at = bit >>> 3;
  const within = bit & 7;
  const high = view.getUint32(at);
  if (within + width <= 32) return (high << within) >>> (32 - width);
  // Within is at least 1 here, so that the shift is below 8.
  const joined = ((high << within) | (view.getUint8(at + 4) >>> (8 - within))) >>> 0;
  return joined >>> (32 - width);
}

/** Octets that are read beyond the last bit; in a whole message as many follow, a section or `7777`. */
const SPARE_OCTETS = 4;

/** The data with spare octets after them; no copy where the buffer goes on. */
export function padded(data: Uint8Array): DataView {
  const room = data.byteOffset + data.length + SPARE_OCTETS;
  if (room <= data.buffer.byteLength) {
    return new DataView(data.buffer, data.byteOffset, data.length + SPARE_OCTETS);
  }
  const copy = new Uint8Array(data.length + SPARE_OCTETS);
  copy.set(data);
  return new DataView(copy.buffer);
}
