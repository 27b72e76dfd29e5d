/** Memory images as files: which format one is in, read and written. */
import { textOfFile } from '../../../shared/file-text.ts';
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
import { bytesIn } from '../../ui/opened-file.ts';

export interface ImageFormat {
  readonly id: string;
  readonly title: string;
  /** the first is given to files that are saved */
  readonly endings: readonly string[];
  write(image: MemoryImage): Blob;
  read(bytes: Uint8Array, place: MemoryPlace, name: string): Outcome<FileRead>;
}

/** A format that is text is read as such, in whichever encoding it was saved. */
const asText =
  (read: (text: string, place: MemoryPlace) => Outcome<FileRead>): ImageFormat['read'] =>
  (bytes, place, name) => {
    const text = textOfFile(bytes, name);
    return text.ok ? inFile(name, read(text.value, place)) : text;
  };

const inFile = (name: string, read: Outcome<FileRead>): Outcome<FileRead> =>
  read.ok ? read : failed(read.failure.code, read.failure.at, `${name}: ${read.failure.says}`);

const blob = (content: string): Blob => new Blob([content], { type: 'text/plain' });

export const IMAGE_FORMATS: readonly ImageFormat[] = [
  {
    id: 'intel-hex',
    title: 'Intel HEX',
    endings: ['hex', 'ihx', 'ihex'],
    write: (image) => blob(writeIntelHex(image)),
    read: asText(readIntelHex),
  },
  {
    id: 's-record',
    title: 'S-record',
    endings: ['s19', 's28', 's37', 'srec', 'mot'],
    write: (image) => blob(writeSRecord(image)),
    read: asText(readSRecord),
  },
  {
    id: 'binary',
    title: 'Binary',
    endings: ['bin', 'rom', 'raw'],
    write: (image) => new Blob([Uint8Array.from(writeRawImage(image))], { type: 'application/octet-stream' }),
    read: (bytes, place, name) => inFile(name, readRawImage(bytes, place)),
  },
  {
    id: 'csv',
    title: 'CSV',
    endings: ['csv', 'tsv', 'txt'],
    write: (image) => blob(writeCsvImage(image)),
    read: asText(readCsvImage),
  },
];

/** Files of this size and above are no image of any memory here [bytes]: the text of 64 KB takes a fifth of it. */
const MOST = 1_000_000;

/** By its name; what a text of records begins with counts for more than that. */
function formatOf(name: string, bytes: Uint8Array): ImageFormat | undefined {
  const ending = name.toLowerCase().split('.').at(-1) ?? '';
  const named = IMAGE_FORMATS.find((f) => f.endings.includes(ending));
  const begins = textOfFile(bytes.subarray(0, 64), name);
  const first = begins.ok ? begins.value.trimStart() : '';
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
  const bytes = await bytesIn(file);
  if (!bytes.ok) return bytes;
  const format = formatOf(file.name, bytes.value);
  if (!format) throw new Error('No format reads bytes as they are');
  const read = format.read(bytes.value, place, file.name);
  if (read.ok && read.value.image.given.every((g) => g === 0))
    return failed(
      'image/no-bytes',
      file.name,
      `${file.name}, read as ${format.title}, has no bytes. Choose another file, or give it the extension of its format.`,
    );
  return read;
}
