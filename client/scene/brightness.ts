/** How bright a current looks. */

/**
 * 0 dark to 1 fully bright, for an LED of 20 mA: perceived brightness goes with the cube root of luminance
 * (the exponent of CIE 1976 lightness L*), and an LED's luminance with its current.
 */
export const brightness = (amps: number, full = 0.02): number => (amps <= 0 ? 0 : Math.min(1.15, Math.cbrt(amps / full)));

/** Steps a repaint can be skipped within. */
export const brightnessStep = (amps: number): number => Math.round(brightness(amps) * 40);
