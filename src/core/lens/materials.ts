/** Lens materials by refractive index at 589 nm; sources in docs/optics.md, "Check values". */
export interface Material {
  readonly name: string;
  readonly index: number;
}

export const materials: readonly Material[] = [
  { name: 'PMMA', index: 1.4905 },
  { name: 'PET', index: 1.569 },
  { name: 'PETG (about)', index: 1.57 },
  { name: 'Polycarbonate', index: 1.5846 },
  { name: 'Polystyrene', index: 1.5915 },
];
