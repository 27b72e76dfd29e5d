/** What a file is called that is named after a title. */

/** 'Ferry ramp', 'plan.json' → 'ferry-ramp.plan.json' */
export const fileName = (title: string, extension: string): string =>
  `${
    title
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '') || 'bench'
  }.${extension}`;
