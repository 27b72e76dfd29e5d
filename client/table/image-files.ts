/** Memory images as files: which format one is in, read and written. */
import {
  type FileRead,
  type MemoryImage,
  type Outcome,
  readCsvImage,
  readIntelHex,
  readRawImage,
  readSRecord,
  writeCsvImage,
  writeIntelHex,
  writeRawImage,
  writeSRecord,
} from '../core.ts';

export interface ImageFormat {
  readonly id: string;
  readonly title: string;
  /** the first is given to files that are saved */
  readonly endings: readonly string[];
  write(image: MemoryImage): Blob;
  read(bytes: Uint8Array, size: number): Outcome<FileRead>;
}

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
const blob = (content: string): Blob => new Blob([content], { type: 'text/plain' });

export const IMAGE_FORMATS: readonly ImageFormat[] = [
  {
    id: 'intel-hex',
    title: 'Intel HEX',
    endings: ['hex', 'ihx', 'ihex'],
    write: (image) => blob(writeIntelHex(image)),
    read: (bytes, size) => readIntelHex(text(bytes), { size }),
  },
  {
    id: 's-record',
    title: 'S-record',
    endings: ['s19', 's28', 's37', 'srec', 'mot'],
    write: (image) => blob(writeSRecord(image)),
    read: (bytes, size) => readSRecord(text(bytes), { size }),
  },
  {
    id: 'binary',
    title: 'Binary',
    endings: ['bin', 'rom', 'raw'],
    write: (image) => new Blob([Uint8Array.from(writeRawImage(image))], { type: 'application/octet-stream' }),
    read: (bytes, size) => readRawImage(bytes, { size }),
  },
  {
    id: 'csv',
    title: 'CSV',
    endings: ['csv', 'tsv', 'txt'],
    write: (image) => blob(writeCsvImage(image)),
    read: (bytes, size) => readCsvImage(text(bytes), { size }),
  },
];

/** Files of this size and above are no image of any memory here [bytes]: the text of 64 KB takes a fifth of it. */
const MOST = 1_000_000;

/** By what it begins with where its name says nothing. */
function formatOf(name: string, bytes: Uint8Array): ImageFormat | undefined {
  const ending = name.toLowerCase().split('.').at(-1) ?? '';
  const named = IMAGE_FORMATS.find((f) => f.endings.includes(ending));
  // a text of records keeps its kind under the name of a mere text
  const first = text(bytes.subarray(0, 64)).trimStart();
  const begun = first.startsWith(':') ? 'intel-hex' : /^S\d[0-9A-F]{2}/i.test(first) ? 's-record' : undefined;
  if (named && (named.id !== 'csv' || begun === undefined)) return named;
  return IMAGE_FORMATS.find((f) => f.id === (begun ?? 'binary'));
}

export async function readImage(file: File, size: number): Promise<Outcome<FileRead>> {
  if (file.size > MOST)
    return {
      ok: false,
      failure: { at: file.name, says: `${file.name} has ${file.size} bytes, and this memory ${size}. Choose an image of this memory.` },
    };
  const bytes = new Uint8Array(await file.arrayBuffer());
  const format = formatOf(file.name, bytes);
  if (!format) throw new Error('No format reads bytes as they are');
  const read = format.read(bytes, size);
  return read.ok ? read : { ok: false, failure: { ...read.failure, says: `${file.name}: ${read.failure.says}` } };
}
