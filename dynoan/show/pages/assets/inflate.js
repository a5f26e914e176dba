// Inflating a deflated stream (RFC 1951), at once: phones differ in what they offer for it, and when it is done.

const LENGTHS = [3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 15, 17, 19, 23, 27, 31, 35, 43, 51, 59, 67, 83, 99, 115, 131, 163, 195, 227, 258];
const LENGTH_BITS = [0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 4, 4, 5, 5, 5, 5, 0];
const BACKS = [1, 2, 3, 4, 5, 7, 9, 13, 17, 25, 33, 49, 65, 97, 129, 193, 257, 385, 513, 769, 1025, 1537, 2049, 3073, 4097,
  6145, 8193, 12289, 16385, 24577];
const BACK_BITS = [0, 0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 8, 9, 9, 10, 10, 11, 11, 12, 12, 13, 13];
const CODE_ORDER = [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15];

function bitReader(input) {
  let at = 0;
  let held = 0;
  let count = 0;
  const bits = (n) => {
    while (count < n) { held |= input[at] << count; at += 1; count += 8; }
    const out = held & ((1 << n) - 1);
    held >>>= n;
    count -= n;
    return out;
  };
  return { bits: bits, align: () => { held = 0; count = 0; } };
}

// How many codes have each length, and the symbols in the order of their codes.
function codeTable(lengths) {
  const counts = new Uint16Array(16);
  lengths.forEach((n) => { counts[n] += 1; });
  counts[0] = 0;
  const from = new Uint16Array(16);
  for (let n = 1; n < 15; n += 1) from[n + 1] = from[n] + counts[n];
  const symbols = new Uint16Array(lengths.length);
  lengths.forEach((n, symbol) => { if (n) { symbols[from[n]] = symbol; from[n] += 1; } });
  return { counts: counts, symbols: symbols };
}

function symbolOf(reader, table) {
  let code = 0;
  let first = 0;
  let index = 0;
  for (let n = 1; n < 16; n += 1) {
    code |= reader.bits(1);
    const count = table.counts[n];
    if (code - count < first) return table.symbols[index + code - first];
    index += count;
    first = (first + count) << 1;
    code <<= 1;
  }
  throw new Error("the page's tables are damaged");
}

function fixedTables() {
  const lengths = Array.from({ length: 288 }, (_, i) => (i < 144 ? 8 : i < 256 ? 9 : i < 280 ? 7 : 8));
  return [codeTable(lengths), codeTable(new Array(30).fill(5))];
}

function dynamicTables(reader) {
  const literals = reader.bits(5) + 257;
  const backs = reader.bits(5) + 1;
  const codes = reader.bits(4) + 4;
  const own = new Array(19).fill(0);
  for (let i = 0; i < codes; i += 1) own[CODE_ORDER[i]] = reader.bits(3);
  const table = codeTable(own);
  const lengths = [];
  while (lengths.length < literals + backs) {
    const symbol = symbolOf(reader, table);
    if (symbol < 16) { lengths.push(symbol); continue; }
    const value = symbol === 16 ? lengths[lengths.length - 1] : 0;
    const times = symbol === 16 ? 3 + reader.bits(2) : symbol === 17 ? 3 + reader.bits(3) : 11 + reader.bits(7);
    for (let i = 0; i < times; i += 1) lengths.push(value);
  }
  return [codeTable(lengths.slice(0, literals)), codeTable(lengths.slice(literals))];
}

function copyStored(reader, out, at) {
  reader.align();
  const length = reader.bits(16);
  reader.bits(16);
  for (let i = 0; i < length; i += 1) out[at + i] = reader.bits(8);
  return at + length;
}

function inflateBlock(reader, out, start, tables) {
  let at = start;
  for (;;) {
    const symbol = symbolOf(reader, tables[0]);
    if (symbol === 256) return at;
    if (symbol < 256) { out[at] = symbol; at += 1; continue; }
    const length = LENGTHS[symbol - 257] + reader.bits(LENGTH_BITS[symbol - 257]);
    const back = symbolOf(reader, tables[1]);
    const distance = BACKS[back] + reader.bits(BACK_BITS[back]);
    for (let i = 0; i < length; i += 1) { out[at] = out[at - distance]; at += 1; }
  }
}

// `size` bytes out of a stream.
function inflate(input, size) {
  const reader = bitReader(input);
  const out = new Uint8Array(size);
  let at = 0;
  let last = 0;
  while (!last) {
    last = reader.bits(1);
    const kind = reader.bits(2);
    if (kind === 0) at = copyStored(reader, out, at);
    else at = inflateBlock(reader, out, at, kind === 1 ? fixedTables() : dynamicTables(reader));
  }
  return out;
}
