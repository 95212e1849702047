/**
 * The look that all views share. Drawings carry the light colours as plain attributes, so a file of
 * one needs no style sheet; on screen the classes of `LOOK_CSS` lay the theme's colours over them.
 *
 * Three ways of making a note, told apart by shape first: a *thimble* is a finger that presses (solid,
 * flat where the string ends, round toward the nut), a *ring* is a finger that only touches (hollow, the
 * string runs through), a *pennant* is an open string (a flag flown from the nut).
 */
export const LIGHT = {
  ink: '#1b2a36',
  faint: '#5b6b78',
  line: '#8b99a4',
  paper: '#ffffff',
  wood: '#eef1f3',
  stop: '#a63a14',
  touch: '#00617a',
  open: '#5d3f9e',
  warn: '#8f5b00',
} as const;

export type Role = keyof typeof LIGHT;

/** Attributes of a filled shape: the light colour, and the class by which a theme recolours it. */
export function filled(role: Role, also = ''): { class: string; fill: string } {
  return { class: also ? `pw-fill-${role} ${also}` : `pw-fill-${role}`, fill: LIGHT[role] };
}

/** Attributes of an outline, `width` in the drawing's own unit. */
export function outlined(
  role: Role,
  width: number,
  also = '',
): { class: string; fill: string; stroke: string; 'stroke-width': number } {
  return {
    class: also ? `pw-line-${role} ${also}` : `pw-line-${role}`,
    fill: 'none',
    stroke: LIGHT[role],
    'stroke-width': width,
  };
}

const DARK: Record<Role, string> = {
  ink: '#e4ebf0',
  faint: '#a3b1bc',
  line: '#6f7f8b',
  paper: '#14191e',
  wood: '#1f272e',
  stop: '#ff9a70',
  touch: '#62cfe8',
  open: '#c3a9ff',
  warn: '#f0b64a',
};

/** In VS Code all but the three kinds' own colours come from the theme. */
const THEMED: Partial<Record<Role, string>> = {
  ink: 'var(--vscode-editor-foreground)',
  paper: 'var(--vscode-editor-background)',
  faint: 'color-mix(in srgb,var(--vscode-editor-foreground) 76%,var(--vscode-editor-background))',
  line: 'color-mix(in srgb,var(--vscode-editor-foreground) 48%,var(--vscode-editor-background))',
  wood: 'color-mix(in srgb,var(--vscode-editor-foreground) 7%,var(--vscode-editor-background))',
};

const CONTRAST_DARK: Record<Role, string> = {
  ink: '#ffffff',
  faint: '#ffffff',
  line: '#ffffff',
  paper: '#000000',
  wood: '#000000',
  stop: '#ffa27a',
  touch: '#73e3ff',
  open: '#d8c5ff',
  warn: '#ffd37a',
};

const CONTRAST_LIGHT: Record<Role, string> = {
  ink: '#000000',
  faint: '#000000',
  line: '#000000',
  paper: '#ffffff',
  wood: '#ffffff',
  stop: '#7d2400',
  touch: '#003f52',
  open: '#3d2184',
  warn: '#5e3a00',
};

/** Windows' forced colours: only the system's own names may be used. */
const FORCED: Record<Role, string> = {
  ink: 'CanvasText',
  faint: 'CanvasText',
  line: 'GrayText',
  paper: 'Canvas',
  wood: 'Canvas',
  stop: 'Highlight',
  touch: 'LinkText',
  open: 'VisitedText',
  warn: 'CanvasText',
};

function colours(palette: Readonly<Record<Role, string>>): string {
  return Object.entries(palette)
    .map(([role, colour]) => `--pw-${role}:${colour};`)
    .join('');
}

const roles = Object.keys(LIGHT) as Role[];

/** Colours of the drawings by theme: VS Code's own where the drawing is in its panel, the system's elsewhere. */
export const LOOK_CSS = `
:root{color-scheme:light dark;${colours(LIGHT)}}
@media (prefers-color-scheme:dark){:root{${colours(DARK)}}}
body.vscode-light{color-scheme:light;${colours({ ...LIGHT, ...THEMED })}}
body.vscode-dark{color-scheme:dark;${colours({ ...DARK, ...THEMED })}}
body.vscode-high-contrast{color-scheme:dark;${colours(CONTRAST_DARK)}}
body.vscode-high-contrast-light{color-scheme:light;${colours(CONTRAST_LIGHT)}}
@media (forced-colors:active){:root{${colours(FORCED)}}}
@media print{:root{color-scheme:light;${colours(LIGHT)}}}
${roles.map((role) => `.pw-fill-${role}{fill:var(--pw-${role})}.pw-line-${role}{stroke:var(--pw-${role})}`).join('\n')}
`;
