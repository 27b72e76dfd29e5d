/** Memory images as files: which format one is in, read and written. */
import {
  type FileRead,
  failed,
  grouped,
  type MemoryImage,
  type MemoryPlace,
  type Outcome,
  readCsvImage,
  readIntelHex,
  readRawImage,
  readSRecord,
  writeCsvImage,
  writeIntelHex,
  writeRawImage,
  writeSRecord,
} from '../../../sim-core/index.ts';

export interface ImageFormat {
  readonly id: string;
  readonly title: string;
  /** the first is given to files that are saved */
  readonly endings: readonly string[];
  write(image: MemoryImage): Blob;
  read(bytes: Uint8Array, place: MemoryPlace): Outcome<FileRead>;
}

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
const blob = (content: string): Blob => new Blob([content], { type: 'text/plain' });

export const IMAGE_FORMATS: readonly ImageFormat[] = [
  {
    id: 'intel-hex',
    title: 'Intel HEX',
    endings: ['hex', 'ihx', 'ihex'],
    write: (image) => blob(writeIntelHex(image)),
    read: (bytes, place) => readIntelHex(text(bytes), place),
  },
  {
    id: 's-record',
    title: 'S-record',
    endings: ['s19', 's28', 's37', 'srec', 'mot'],
    write: (image) => blob(writeSRecord(image)),
    read: (bytes, place) => readSRecord(text(bytes), place),
  },
  {
    id: 'binary',
    title: 'Binary',
    endings: ['bin', 'rom', 'raw'],
    write: (image) => new Blob([Uint8Array.from(writeRawImage(image))], { type: 'application/octet-stream' }),
    read: (bytes, place) => readRawImage(bytes, place),
  },
  {
    id: 'csv',
    title: 'CSV',
    endings: ['csv', 'tsv', 'txt'],
    write: (image) => blob(writeCsvImage(image)),
    read: (bytes, place) => readCsvImage(text(bytes), place),
  },
];

/** Files of this size and above are no image of any memory here [bytes]: the text of 64 KB takes a fifth of it. */
const MOST = 1_000_000;

/** By its name; what a text of records begins with counts for more than that. */
function formatOf(name: string, bytes: Uint8Array): ImageFormat | undefined {
  const ending = name.toLowerCase().split('.').at(-1) ?? '';
  const named = IMAGE_FORMATS.find((f) => f.endings.includes(ending));
  const first = text(bytes.subarray(0, 64)).trimStart();
  const begun = first.startsWith(':') ? 'intel-hex' : /^S\d[0-9A-F]{2}/i.test(first) ? 's-record' : undefined;
  if (named && (named.id === 'binary' || begun === undefined)) return named;
  return IMAGE_FORMATS.find((f) => f.id === (begun ?? 'binary'));
}

/** A file that gives no byte is refused: it is of another form, or empty. */
export async function readImage(file: File, place: MemoryPlace): Promise<Outcome<FileRead>> {
  if (file.size > MOST)
    return failed(
      'image/wrong-size',
      file.name,
      `${file.name} has ${grouped(file.size)} bytes, and this memory ${grouped(place.size)}. Choose an image for this memory.`,
    );
  const bytes = new Uint8Array(await file.arrayBuffer());
  const format = formatOf(file.name, bytes);
  if (!format) throw new Error('No format reads bytes as they are');
  const read = format.read(bytes, place);
  if (read.ok && read.value.image.given.every((g) => g === 0))
    return failed(
      'image/no-bytes',
      file.name,
      `${file.name}, read as ${format.title}, has no bytes. Choose another file, or give it the extension of its format.`,
    );
  return read.ok ? read : failed(read.failure.code, read.failure.at, `${file.name}: ${read.failure.says}`);
}
