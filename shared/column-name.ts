/** Whether a name of a table's column can be quoted, and is told apart from others by its letters. */
export const isPlainName = (name: string): boolean => name === name.trim() && !/["\n\r\t]/.test(name);
