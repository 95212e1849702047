/** A cyclic redundancy check of 8 or 16 bits, begun at 0, highest bit first (RFC 9639, 9.1.8 and 9.3). */
function checkOf(width: 8 | 16, polynomial: number): (bytes: Uint8Array) => number {
  const top = 1 << (width - 1);
  const all = (1 << width) - 1;
  const table = Uint16Array.from({ length: 256 }, (_, byte) => {
    let value = byte << (width - 8);
    for (let bit = 0; bit < 8; bit++) value = value & top ? (value << 1) ^ polynomial : value << 1;
    return value & all;
  });
  return (bytes) => {
    let value = 0;
    for (const byte of bytes) value = ((value << 8) & all) ^ (table[(value >> (width - 8)) ^ byte] as number);
    return value;
  };
}

/** x^8 + x^2 + x + 1, over a frame's header. */
export const crc8 = checkOf(8, 0x07);

/** x^16 + x^15 + x^2 + 1, over a whole frame. */
export const crc16 = checkOf(16, 0x8005);
