/** Colours of one sheet, as the map's canvas needs them; the page around it reads CSS. */
export interface SheetTheme {
  /** Land without rain data. */
  readonly paper: string;
  readonly water: string;
  readonly coast: string;
  readonly countryLine: string;
  readonly stateLine: string;
  readonly isohyet: string;
  readonly mainIsohyet: string;
  readonly name: string;
  readonly cityName: string;
  /** Around names, lines of text and marks. */
  readonly halo: string;
  readonly picked: string;
  /** Shades of rain, driest first, blended in CIELAB. */
  readonly ramp: readonly string[];
}

export type ThemeName = 'light' | 'dark';

/** Two sheets, each drawn for its own ground: the dark one is not the light one turned over. */
export const sheetThemes: Readonly<Record<ThemeName, SheetTheme>> = {
  light: {
    paper: '#f3efe6',
    water: '#e9edee',
    coast: '#7d8f93',
    countryLine: '#6d7468',
    stateLine: '#9aa197',
    isohyet: '#3f7276',
    mainIsohyet: '#12494f',
    name: '#56605c',
    cityName: '#2c3739',
    halo: '#fbf9f4',
    picked: '#1f2a2e',
    ramp: ['#f6ecd6', '#d5e0cc', '#a5cabf', '#6fabac', '#3f8590', '#1d5f6d'],
  },
  dark: {
    paper: '#2a2c2c',
    water: '#171c1f',
    coast: '#5f7276',
    countryLine: '#7a7f78',
    stateLine: '#596160',
    isohyet: '#76a09e',
    mainIsohyet: '#c6e6df',
    name: '#9aa19c',
    cityName: '#dfe3dd',
    halo: '#15191b',
    picked: '#f4f1e8',
    ramp: ['#38332a', '#353c36', '#2c4846', '#255759', '#24696f', '#2b808a'],
  },
};
