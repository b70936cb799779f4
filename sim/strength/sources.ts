import type { MaterialName } from './material.ts';

/** Where the figures of each material come from, and what to mind. Standards give least values; all from memory. */
export const materialSources: Readonly<Record<MaterialName, string>> = {
  'mild-steel': 'S235JR, EN 10025-2: yield 235, tensile 360 MPa, up to 16 mm (from memory)',
  'carbon-steel': 'C45+N, EN 10083-2: yield 340, tensile 620 MPa, up to 16 mm (from memory)',
  'alloy-steel': '42CrMo4+QT, EN 10083-3: yield 900, tensile 1100 MPa, up to 16 mm (from memory)',
  'stainless-steel': '1.4301, EN 10088-3, solution annealed bar: 190, 500 MPa (from memory)',
  'spring-steel':
    '51CrV4 hardened and tempered, EN 10089: 1200, 1350 MPa; G as in EN 13906-1 for EN 10089 (from memory)',
  'music-wire':
    'ASTM A228: tensile 2211 MPa/d^0.145 (d in mm), 45 % of it in shear; Shigley, springs; G: EN 13906-1 for EN 10270-1 (from memory)',
  'hard-drawn-wire':
    'ASTM A227: tensile 1783 MPa/d^0.190, 45 % of it in shear; Shigley, springs; G: EN 13906-1 (from memory)',
  'stainless-wire':
    'ASTM A313, 0.3 to 2.5 mm: tensile 1867 MPa/d^0.146, 35 % of it in shear; Shigley, springs; G: EN 13906-1 for EN 10270-3 (from memory)',
  'aluminium-6061': '6061-T6 extruded bar, EN 755-2: 240, 260 MPa (from memory)',
  'aluminium-7075': '7075-T6 extruded bar, EN 755-2: 480, 540 MPa (from memory)',
  titanium: 'Ti-6Al-4V annealed, ASTM B348 grade 5: 828, 895 MPa (from memory)',
  brass: 'CuZn39Pb3 R430, EN 12164: 220, 430 MPa (from memory)',
  pom: 'acetal copolymer, data sheets of the trade (from memory): typical, test yours',
  pa: 'polyamide 66 in moist balance, data sheets of the trade (from memory): typical, test yours; dry it is stiffer and stronger',
  abs: 'injection-moulded ABS, data sheets of the trade (from memory): typical, test yours',
  pc: 'polycarbonate, data sheets of the trade (from memory): typical, test yours',
  'pla-printed':
    'printed PLA along its layers, solid; across the layers about half (common practice, no source): test yours',
  pine: 'structural softwood with small knots along the grain; shear along the grain 6 MPa; order of the Wood Handbook, USDA (from memory): test yours',
  'birch-plywood':
    'along the face grain, panel shear 9 MPa; order of the Handbook of Finnish Plywood (from memory): test yours',
};
