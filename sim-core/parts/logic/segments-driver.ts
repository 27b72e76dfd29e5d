/** What the BCD to 7-segment decoder/drivers share: the published patterns, and the controls that light all segments or none. */

/**
 * Segments a to g lit for the inputs 0 to 15: function table of the 48 kind, of which the 47 kind is the complement (SOURCES.md S36). Its 6 has no top,
 * its 9 no bottom stroke, and 10 to 14 are its own figures.
 */
const PATTERNS = [0x3f, 0x06, 0x5b, 0x4f, 0x66, 0x6d, 0x7c, 0x07, 0x7f, 0x67, 0x58, 0x4c, 0x62, 0x69, 0x78, 0x00] as const;

export const SEGMENT_PINS = ['a', 'b', 'c', 'd', 'e', 'f', 'g'] as const;

/** Is this segment lit for this number? */
export const lit = (segment: number, n: number): boolean => (((PATTERNS[n] ?? 0) >> segment) & 1) === 1;
