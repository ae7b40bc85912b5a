/** A fingerprint of the whole state: equal at every checkpoint, or the run has gone another way. */

/** JSON with keys in alphabetical order, so that two equal states give one text however they were built. */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (value !== null && typeof value === 'object') {
    const entries = Object.entries(value).filter(([, member]) => member !== undefined);
    entries.sort(([a], [b]) => (a < b ? -1 : 1));
    return `{${entries.map(([key, member]) => `${JSON.stringify(key)}:${canonicalJson(member)}`).join(',')}}`;
  }
  return JSON.stringify(value);
}

/**
 * 64-bit FNV-1a over UTF-16 code units (low byte, then high byte), 16 hex digits. Source: public algorithm, offset
 * basis cbf29ce484222325, prime 100000001b3. Worked in four 16-bit limbs so that every product stays exact.
 */
export function fnv64(text: string): string {
  let a = 0xcbf2;
  let b = 0x9ce4;
  let c = 0x8422;
  let d = 0x2325;
  const mix = (byte: number) => {
    d ^= byte;
    // times 0x00000100_000001b3: 0x1b3 on every limb, and 0x100 two limbs further up
    const d1 = d * 0x1b3;
    const c1 = c * 0x1b3 + (d1 >>> 16);
    const b1 = b * 0x1b3 + d * 0x100 + (c1 >>> 16);
    const a1 = a * 0x1b3 + c * 0x100 + (b1 >>> 16);
    d = d1 & 0xffff;
    c = c1 & 0xffff;
    b = b1 & 0xffff;
    a = a1 & 0xffff;
  };
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    mix(unit & 0xff);
    mix(unit >>> 8);
  }
  return [a, b, c, d].map((limb) => limb.toString(16).padStart(4, '0')).join('');
}
