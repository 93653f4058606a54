/** The fields of an IPTC block that are read, as bytes. */
export interface IptcFields {
  /** 2:55 Date Created. */
  readonly created: Buffer | null;
  /** 2:120 Caption/Abstract. */
  readonly caption: Buffer | null;
}

const APPLICATION_RECORD = 2;
const DATE_CREATED = 55;
const CAPTION = 120;

/** Reads an IPTC block; whatever is not one gives no fields. Source: IPTC-NAA Information Interchange Model 4.2, 1.6. */
export function readIptc(block: Buffer): IptcFields {
  let created: Buffer | null = null;
  let caption: Buffer | null = null;
  for (let at = 0; at + 5 <= block.length && block[at] === 0x1c;) {
    const length = block.readUInt16BE(at + 3);
    // The high bit announces a length of more than two bytes: nothing read here is that long.
    if (length > 0x7fff) break;
    const value = block.subarray(at + 5, at + 5 + length);
    if (block[at + 1] === APPLICATION_RECORD && block[at + 2] === DATE_CREATED) created ??= value;
    if (block[at + 1] === APPLICATION_RECORD && block[at + 2] === CAPTION) caption ??= value;
    at += 5 + length;
  }
  return { created, caption };
}
