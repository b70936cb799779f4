/** Colours of one theme as CSS text, `#rrggbb`. The app shell writes them out as custom properties. */
export interface Palette {
  /** Ground of the drawing and of the page. */
  readonly paper: string;
  /** Earth under the ground line. */
  readonly earth: string;
  /** Side panels and bars. */
  readonly panel: string;
  /** Buttons, menus and whatever lies on a panel. */
  readonly raised: string;
  /** Inside of a field that can be changed. */
  readonly field: string;
  /** Lines and text. */
  readonly ink: string;
  /** Text of lower rank; at least 4.5 : 1 on paper and panel. */
  readonly soft: string;
  /** Lines of lower rank: ghosts, earlier runs, small ticks. Not for text. */
  readonly faint: string;
  /** Hairlines between things. */
  readonly hair: string;
  /** Hatching of the earth. */
  readonly hatch: string;
  /** Fill of bodywork. */
  readonly cover: string;
  /** What can be moved, what is selected, the shared cursor. */
  readonly accent: string;
  readonly accentSoft: string;
  readonly onAccent: string;
  /** Ends and middle of the load scale: no load, standing load, twice the standing load. */
  readonly low: string;
  readonly neutral: string;
  readonly high: string;
  /** Halfway stops of the load scale. */
  readonly lowMid: string;
  readonly highMid: string;
  /** The scale's orange dark (or bright) enough for text. */
  readonly lowInk: string;
}

export const palettes: { readonly light: Palette; readonly dark: Palette } = {
  light: {
    paper: '#f6f4ee',
    earth: '#edeae1',
    panel: '#fdfcf8',
    raised: '#ffffff',
    field: '#f4f2eb',
    ink: '#1d2126',
    soft: '#5a5f66',
    faint: '#94979b',
    hair: '#d9d5ca',
    hatch: '#c3beb0',
    cover: '#fdfcf8',
    accent: '#0b6b70',
    accentSoft: '#d3e7e5',
    onAccent: '#ffffff',
    low: '#d95f02',
    lowMid: '#f6ab5c',
    neutral: '#e6e2d7',
    highMid: '#a99fd0',
    high: '#54359a',
    lowInk: '#a84300',
  },
  dark: {
    paper: '#15181b',
    earth: '#1b1f23',
    panel: '#1a1e22',
    raised: '#23282d',
    field: '#121518',
    ink: '#ebe8e1',
    soft: '#a4a9ae',
    faint: '#6d747b',
    hair: '#30363c',
    hatch: '#434a51',
    cover: '#1f2428',
    accent: '#54bfbd',
    accentSoft: '#17393b',
    onAccent: '#06201f',
    low: '#ff8f2e',
    lowMid: '#9d6026',
    neutral: '#343a40',
    highMid: '#6b5a9c',
    high: '#b59bfb',
    lowInk: '#ff9d4d',
  },
};

/** Type faces; both are shipped with the app, the rest are for the moment before they have loaded. */
export const faces = {
  sans: "'Inter Variable', Inter, system-ui, sans-serif",
  mono: "'JetBrains Mono Variable', 'JetBrains Mono', 'DejaVu Sans Mono', monospace",
} as const;
