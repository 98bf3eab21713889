// The classes of fatty acids, as the page names them.
export const CLASSES = [
  ['short-saturated', 'short saturated, C8–C10'],
  ['lauric-myristic', 'lauric and myristic, C12–C14'],
  ['palmitic-stearic', 'palmitic and stearic, saturated from C15'],
  ['mono-unsaturated', 'mono-unsaturated'],
  ['poly-unsaturated', 'poly-unsaturated'],
  ['hydroxy', 'hydroxy'],
] as const;

export type ClassName = (typeof CLASSES)[number][0];
