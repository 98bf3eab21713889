// The documents of Lamella. Written by wasm/build from core/schema and the types in core/src: mend it there.
//
// Quantities are texts with their unit: "1.2 kg", "33 %", "38 °C".

/** All that is known of a material. */
export type Material = Fat | Additive | Colourant | Fragrance;

/** An ingredient. */
export interface AssessmentAssessedIngredient {
  /** Its label name (INCI); capitals and words in brackets do not matter. */
  inci?: string;
  /** Label names of permitted alternatives, which share one range: their sum must lie in it. */
  any?: string[];
  /** What the alternatives are called, with any. */
  group?: string;
  /** Least share of the finished product; 0 % by default. From 0 % to 100 %. */
  min?: string;
  /** Largest share of the finished product. From 0 % to 100 %. */
  max: string;
}

/** An assessment. */
export interface Assessment {
  /** The format: assessment/1. */
  lamella: "assessment/1";
  /** The product or range of products that it covers. */
  name: string;
  /** The report's number. */
  reference: string;
  /** Who signed it. */
  assessor: string;
  /** The day of the report, as 2026-03-31. */
  date: string;
  /** Free text. */
  note?: string;
  /** What the shares are shares of; at filling by default. */
  shares?: "at filling" | "cured";
  /** In which names; as charged by default. */
  names?: "as charged" | "as formed";
  /** What it covers. */
  ingredients: (AssessmentAssessedIngredient)[];
  /** Under which conditions. */
  conditions?: AssessmentConditions;
}

/** A set of conditions. */
export interface AssessmentConditions {
  /** How it is made. */
  process?: "cold" | "hot";
  /** Superfat of every jug, as weighed. */
  superfat?: AssessmentRange;
  /** Most free alkali in the cured bar. From 0 % to 100 %. */
  free_alkali?: string;
  /** Water of the cured bar. */
  water?: AssessmentRange;
  /** Most of all scents together. From 0 % to 100 %. */
  scents?: string;
  /** In words: what the maker must see to. */
  other?: string[];
}

/** A range. */
export interface AssessmentRange {
  /** Least; 0 % by default. From 0 % to 100 %. */
  min?: string;
  /** Most; 100 % by default. From 0 % to 100 %. */
  max?: string;
}

/** A dose of an additive. */
export interface BatchAdditiveDose {
  /** Id of an additive of the library, or of one's own with a composition. */
  additive: string;
  /** Name of a material of one's own; its id by default. */
  name?: string;
  /** Its label name (INCI), where the library has none or another. */
  inci?: string;
  /** How much: a share of a basis, or a mass. From 0 % to 300 %, or 0 g to 1000000 g. */
  dose: string;
  /** What the share is a share of; layer fat by default, in the pot and in the lye batch fat, which is all they can have. */
  of?: "layer fat" | "layer" | "batch fat" | "batch";
  /** Whether the superfat moves (absorb, default) or the lye follows (balance). */
  treatment?: "absorb" | "balance";
  /** What it is made of: in full for a material of one's own, in part to override the library. */
  composition?: BatchComposition;
}

/** The alkali. */
export interface BatchAlkali {
  /** Sodium hydroxide. */
  naoh?: BatchSodiumHydroxide;
  /** Potassium hydroxide; with its share when both are there. */
  koh?: BatchPotassiumHydroxide;
}

/** A share of potassium hydroxide. */
export interface BatchAlkaliShare {
  /** Of the mass of both alkalis as pure substance. From 0 % to 100 %. */
  pure_mass?: string;
  /** Of the mass of both alkalis as weighed. From 0 % to 100 %. */
  weighed_mass?: string;
}

/** A batch. */
export interface Batch {
  /** The format: batch/1. */
  lamella: "batch/1";
  /** The recipe that it is made by, a recipe/1 document. */
  recipe: Recipe;
  /** What happened, in order. */
  events?: (BatchEvent)[];
}

/** A bowl. */
export interface BatchBowl {
  /** Its shape. */
  shape: "bowl";
  /** Radius of the ball. From 0 mm to 10000 mm. */
  radius: string;
  /** Height. From 0 mm to 10000 mm. */
  height: string;
}

/** A box. */
export interface BatchBox {
  /** Its shape. */
  shape: "box";
  /** Length. From 0 mm to 10000 mm. */
  length: string;
  /** Width. From 0 mm to 10000 mm. */
  width: string;
  /** Height. From 0 mm to 10000 mm. */
  height: string;
}

/** A certificate. */
export interface BatchCertificate {
  /** Saponification value in place of the library's. From 0 mg KOH/g to 1000 mg KOH/g. */
  saponification_value?: string;
  /** Iodine value in place of the library's. From 0 g I2/100 g to 500 g I2/100 g. */
  iodine_value?: string;
  /** Unsaponifiable matter by mass. From 0 % to 100 %. */
  unsaponifiable?: string;
  /** Density at 20 °C. From 0 g/mL to 30 g/mL. */
  density?: string;
  /** Fatty acids by mass share; together 95 to 101 %. */
  profile?: Record<string, string>;
  /** Its label name (INCI), where the library has none or another. */
  inci?: string;
  /** Label name (INCI) of its sodium soap. */
  sodium_soap_inci?: string;
  /** Label name (INCI) of its potassium soap. */
  potassium_soap_inci?: string;
}

/** A colour. */
export interface BatchColour {
  /** Id of a colour of the library, or of one's own with a swatch. */
  colour: string;
  /** Name of a material of one's own; its id by default. */
  name?: string;
  /** How it looks in a bar, #rrggbb. */
  swatch?: string;
  /** Its number of the Colour Index, where the library has none or another. */
  colour_index?: string;
  /** How much: a share of a basis, or a mass. From 0 % to 300 %, or 0 g to 1000000 g. */
  dose: string;
  /** What the share is a share of; layer fat by default, in the pot and in the lye batch fat, which is all they can have. */
  of?: "layer fat" | "layer" | "batch fat" | "batch";
}

/** A composition. */
export interface BatchComposition {
  /** Free water. From 0 % to 100 %. */
  water?: string;
  /** Fat that alkali can reach; needs fat_like or fat_saponification_value. From 0 % to 100 %. */
  fat?: string;
  /** Sugars. From 0 % to 100 %. */
  sugars?: string;
  /** Protein. From 0 % to 100 %. */
  protein?: string;
  /** Fibre. From 0 % to 100 %. */
  fibre?: string;
  /** Ash, salts, clay. From 0 % to 100 %. */
  minerals?: string;
  /** Ethanol. From 0 % to 100 %. */
  alcohol?: string;
  /** Glycerol and sugar alcohols. From 0 % to 100 %. */
  polyols?: string;
  /** Acid that takes up alkali; needs acid_is. From 0 % to 100 %. */
  acid?: string;
  /** Id of the fat whose fatty acids its own fat has. */
  fat_like?: string;
  /** Id of the acid. */
  acid_is?: string;
  /** In what shape it comes; paste by default for a material of one's own. */
  form?: "liquid" | "paste" | "soluble" | "insoluble";
  /** Saponification value of its own fat. From 0 mg KOH/g to 1000 mg KOH/g. */
  fat_saponification_value?: string;
  /** How it behaves in lye: water and salt dissolve in the water before the alkali, frozen scorches and is frozen with it, boiled foams and is boiled flat first, hot dissolves in hot lye, cooled goes into clear cool lye, fats does not belong in lye. By default as the library says, or by what it is made of. */
  in_lye?: "water" | "salt" | "frozen" | "boiled" | "hot" | "cooled" | "fats";
}

/** A cone. */
export interface BatchCone {
  /** Its shape. */
  shape: "cone";
  /** Diameter at the bottom. From 0 mm to 10000 mm. */
  bottom_diameter: string;
  /** Diameter at the top. From 0 mm to 10000 mm. */
  top_diameter: string;
  /** Height. From 0 mm to 10000 mm. */
  height: string;
}

/** An event. */
export interface BatchEvent {
  /** So much of this went in: an id or a place of the recipe, "pot" or "lye". */
  weighed?: string;
  /** So much of this went in beside the plan. */
  added?: string;
  /** This layer was poured. */
  poured?: string;
  /** The scale shows this with the jug after its next layer was poured. */
  reads?: string;
  /** This item, or this layer, was left out. */
  skipped?: string;
  /** So much stays in "pot", "lye" or this jug. */
  left?: string;
  /** This alkali turned out to be otherwise. */
  found?: "naoh" | "koh";
  /** A temperature at mixing. From -30 °C to 150 °C. */
  temperature?: string;
  /** The free caustic alkali of this poured layer was determined (ISO 456). */
  tested?: string;
  /** Anything else. */
  note?: string;
  /** The jug it went into, or a layer of it. */
  in?: string;
  /** How much. From 0 g to 1000000 g. */
  mass?: string;
  /** How pure the alkali is. From 10 % to 100 %. */
  purity?: string;
  /** Which alkali it is. */
  is?: "naoh" | "koh";
  /** What was found, as sodium hydroxide. From 0 % to 20 %. */
  free_alkali?: string;
  /** Whose temperature. */
  of?: "fats" | "lye";
  /** When, as the maker writes it. */
  at?: string;
}

/** A fat. */
export interface BatchFat {
  /** Id of a fat of the library. */
  fat: string;
  /** Share of all the fat; the shares of all fats sum to exactly 100 %. From 0 % to 100 %. */
  share?: string;
  /** Mass, in place of a share; then all fats have one, and the batch is that large. From 0 g to 1000000 g. */
  mass?: string;
  /** When it goes in: into the pot (default), or held back until after the cook. */
  stage?: "pot" | "after cook";
  /** What the supplier's certificate states in place of the library. */
  certificate?: BatchCertificate;
}

/** A dose of a fat. */
export interface BatchFatDose {
  /** Id of a fat of the library. */
  fat: string;
  /** How much: a share of a basis, or a mass. From 0 % to 300 %, or 0 g to 1000000 g. */
  dose: string;
  /** What the share is a share of; layer fat by default, in the pot and in the lye batch fat, which is all they can have. */
  of?: "layer fat" | "layer" | "batch fat" | "batch";
  /** Whether the superfat moves (absorb, default) or the lye follows (balance). */
  treatment?: "absorb" | "balance";
  /** What the supplier's certificate states in place of the library. */
  certificate?: BatchCertificate;
}

/** A superfat. */
export interface BatchFatExcess {
  /** Fat beyond what the alkali meets, as a share of the fat it meets. From 0 % to 50 %. */
  fat_excess: string;
}

/** A frustum. */
export interface BatchFrustum {
  /** Its shape. */
  shape: "frustum";
  /** Length at the bottom. From 0 mm to 10000 mm. */
  bottom_length: string;
  /** Width at the bottom. From 0 mm to 10000 mm. */
  bottom_width: string;
  /** Length at the top. From 0 mm to 10000 mm. */
  top_length: string;
  /** Width at the top. From 0 mm to 10000 mm. */
  top_width: string;
  /** Height. From 0 mm to 10000 mm. */
  height: string;
}

/** A jug. */
export interface BatchJug {
  /** Its name. */
  jug: string;
  /** Its own mass; none when the scale is set to nought with the jug on it. From 0 g to 1000000 g. */
  tare?: string;
  /** What stays on its walls; the workshop's by default. From 0 g to 1000000 g. */
  residue?: string;
  /** What is stirred into the mixture. */
  doses?: (BatchAdditiveDose | BatchFatDose)[];
  /** Colours of the mixture. */
  colours?: (BatchColour)[];
  /** Scents of the mixture. */
  scents?: (BatchScent)[];
}

/** A layer. */
export interface BatchLayer {
  /** Its name. */
  layer: string;
  /** How much of the bar it is; all layers say it the same way. From 0 parts to 1000000 parts, or 0 mm to 10000 mm, or 0 g to 1000000 g, or 0 mL to 1000000 mL. */
  share: string;
  /** Name of the jug it is poured from; one of its own by default. */
  jug?: string;
  /** What is stirred into it. */
  doses?: (BatchAdditiveDose | BatchFatDose)[];
  /** Its colours. */
  colours?: (BatchColour)[];
  /** Its scents. */
  scents?: (BatchScent)[];
}

/** A liquid. */
export interface BatchLiquid {
  /** Id of a liquid of the library, or of one's own with a composition. */
  liquid: string;
  /** Name of a material of one's own; its id by default. */
  name?: string;
  /** Its label name (INCI), where the library has none or another. */
  inci?: string;
  /** Share of the lye's water that is water of this liquid. From 0 % to 100 %. */
  share: string;
  /** Whether the superfat moves (absorb, default) or the lye follows (balance). */
  treatment?: "absorb" | "balance";
  /** What it is made of: in full for a material of one's own, in part to override the library. */
  composition?: BatchComposition;
}

/** A loaf mould. */
export interface BatchLoaf {
  /** Its name; mould 1, mould 2 ... by default. */
  mould?: string;
  /** Its shape. */
  shape: "loaf";
  /** Inside length. From 0 mm to 10000 mm. */
  length: string;
  /** Inside width. From 0 mm to 10000 mm. */
  width: string;
  /** Height of the walls. From 0 mm to 10000 mm. */
  height: string;
  /** How high it is filled; to the brim by default. From 0 mm to 10000 mm. */
  fill?: string;
  /** How many of them; one by default. */
  count?: number;
}

/** The lye. */
export interface BatchLye {
  /** Liquids in place of water. */
  liquids?: (BatchLiquid)[];
  /** What is dissolved in it; in grams or of the batch fat. */
  doses?: (BatchAdditiveDose | BatchFatDose)[];
}

/** A lying cylinder. */
export interface BatchLyingCylinder {
  /** Its name; mould 1, mould 2 ... by default. */
  mould?: string;
  /** Its shape. */
  shape: "lying cylinder";
  /** Inside diameter. From 0 mm to 10000 mm. */
  diameter: string;
  /** Inside length. From 0 mm to 10000 mm. */
  length: string;
  /** How high it is filled; to the brim by default. From 0 mm to 10000 mm. */
  fill?: string;
  /** How many of them; one by default. */
  count?: number;
}

/** A potassium hydroxide. */
export interface BatchPotassiumHydroxide {
  /** Pure alkali as a mass share of what is weighed. From 10 % to 100 %. */
  purity?: string;
  /** Carbonate as a mass share; 0 % by default. From 0 % to 100 %. */
  carbonate?: string;
  /** How far the purity may be from what is stated, either way; only the certainty of the superfat asks. From 0 % to 20 %. */
  purity_within?: string;
  /** Share of potassium hydroxide beside sodium hydroxide; as a text, of the alkali demand in moles. */
  share?: string | BatchAlkaliShare;
}

/** A recipe. */
export interface Recipe {
  /** The format: recipe/1. */
  lamella: "recipe/1";
  /** What the maker calls it. */
  name: string;
  /** Free text. */
  note?: string;
  /** For the household (default) or for sale. */
  for?: "household" | "sale";
  /** Poured raw (cold, default) or cooked first (hot). */
  process?: "cold" | "hot";
  /** The fats. */
  fats: (BatchFat)[];
  /** The alkali, or both. */
  alkali: BatchAlkali;
  /** Share of the alkali demand left unmet; or an excess of fat. */
  superfat: string | BatchFatExcess;
  /** The water that the alkali is dissolved in. */
  water: BatchWater;
  /** Whether water of additives comes on top (extra, default) or counts. */
  additive_water?: "extra" | "counts";
  /** What else the lye is made with. */
  lye?: BatchLye;
  /** What is stirred into the fats before they are divided; in grams or of the batch fat. */
  doses?: (BatchAdditiveDose | BatchFatDose)[];
  /** Colours of the whole batch. */
  colours?: (BatchColour)[];
  /** Scents of the whole batch. */
  scents?: (BatchScent)[];
  /** How large the batch is; left out when fats or layers say it. */
  size?: BatchSize;
  /** Moulds that are filled. */
  moulds?: (BatchLoaf | BatchTaperedLoaf | BatchSlab | BatchUprightCylinder | BatchLyingCylinder | BatchTray)[];
  /** Jugs that several layers are poured from, or whose tare is known. */
  jugs?: (BatchJug)[];
  /** Layers in pour order: the first lies at the bottom. */
  layers: (BatchLayer)[];
  /** Scales, and what stays behind. */
  workshop?: BatchWorkshop;
  /** Temperatures at mixing. */
  temperatures?: BatchTemperatures;
  /** Water in the cured bar by mass; 12 % by default. From 0 % to 30 %. */
  cured_water?: string;
}

/** A scale. */
export interface BatchScale {
  /** Its name. */
  scale: string;
  /** Smallest difference it shows; above nought. From 0 g to 1000 g. */
  step: string;
  /** Most it carries, vessel included; at least ten steps. From 0 g to 1000000 g. */
  capacity: string;
}

/** A scent. */
export interface BatchScent {
  /** Id of a scent of the library, or of one's own with a kind. */
  scent: string;
  /** Name of a material of one's own; its id by default. */
  name?: string;
  /** What a scent of one's own is. */
  kind?: "essential oil" | "compound";
  /** Its label name (INCI), where the library has none or another. */
  inci?: string;
  /** How much: a share of a basis, or a mass. From 0 % to 300 %, or 0 g to 1000000 g. */
  dose: string;
  /** What the share is a share of; layer fat by default, in the pot and in the lye batch fat, which is all they can have. */
  of?: "layer fat" | "layer" | "batch fat" | "batch";
  /** What the supplier's certificate states. */
  certificate?: BatchScentCertificate;
}

/** An allergen of a scent. */
export interface BatchScentAllergen {
  /** Its name on the label, its id, an isomer or an oil that is summed under it, or its CAS number. */
  allergen: string;
  /** Its share of the scent by mass. From 0 % to 100 %. */
  share: string;
}

/** A certificate of a scent. */
export interface BatchScentCertificate {
  /** The supplier's name or number for it. */
  reference?: string;
  /** Amendment of the fragrance standards. */
  amendment?: number;
  /** Largest share of the finished bar in the category of bar soap (category 9); above nought. From 0 % to 100 %. */
  limit?: string;
  /** Fragrance allergens in it; together at most 100 %. */
  allergens?: (BatchScentAllergen)[];
  /** Vanillin, which browns soap. From 0 % to 100 %. */
  vanillin?: string;
  /** Flash point. From 0 °C to 300 °C. */
  flash_point?: string;
}

/** The size. */
export interface BatchSize {
  /** So much fat. From 0 g to 1000000 g. */
  fat?: string;
  /** So much poured, everything together. From 0 g to 1000000 g. */
  batter?: string;
  /** So many bars of each so much. */
  bars?: number;
  /** Mass of one bar, fresh. From 0 g to 1000000 g. */
  each?: string;
  /** As much as fills the moulds. */
  moulds?: "filled";
}

/** A slab mould. */
export interface BatchSlab {
  /** Its name; mould 1, mould 2 ... by default. */
  mould?: string;
  /** Its shape. */
  shape: "slab";
  /** Inside length. From 0 mm to 10000 mm. */
  length: string;
  /** Inside width. From 0 mm to 10000 mm. */
  width: string;
  /** Height of the walls. From 0 mm to 10000 mm. */
  height: string;
  /** Cells along the length; one by default. */
  cells_lengthwise?: number;
  /** Cells along the width; one by default. */
  cells_across?: number;
  /** Thickness of a divider; nought by default. From 0 mm to 10000 mm. */
  divider?: string;
  /** How high it is filled; to the brim by default. From 0 mm to 10000 mm. */
  fill?: string;
  /** How many of them; one by default. */
  count?: number;
}

/** A sodium hydroxide. */
export interface BatchSodiumHydroxide {
  /** Pure alkali as a mass share of what is weighed. From 10 % to 100 %. */
  purity?: string;
  /** Carbonate as a mass share; 0 % by default. From 0 % to 100 %. */
  carbonate?: string;
  /** How far the purity may be from what is stated, either way; only the certainty of the superfat asks. From 0 % to 20 %. */
  purity_within?: string;
}

/** A tapered loaf mould. */
export interface BatchTaperedLoaf {
  /** Its name; mould 1, mould 2 ... by default. */
  mould?: string;
  /** Its shape. */
  shape: "tapered loaf";
  /** Inside length. From 0 mm to 10000 mm. */
  length: string;
  /** Inside width at the bottom. From 0 mm to 10000 mm. */
  bottom_width: string;
  /** Inside width at the top. From 0 mm to 10000 mm. */
  top_width: string;
  /** Height of the walls. From 0 mm to 10000 mm. */
  height: string;
  /** How high it is filled; to the brim by default. From 0 mm to 10000 mm. */
  fill?: string;
  /** How many of them; one by default. */
  count?: number;
}

/** The temperatures. */
export interface BatchTemperatures {
  /** Of the fats at mixing. From -30 °C to 150 °C. */
  fats?: string;
  /** Of the lye at mixing. From -30 °C to 150 °C. */
  lye?: string;
}

/** A tray. */
export interface BatchTray {
  /** Its name; mould 1, mould 2 ... by default. */
  mould?: string;
  /** Its shape. */
  shape: "tray";
  /** How many cavities it has. */
  cavities: number;
  /** One of them. */
  cavity: BatchBox | BatchFrustum | BatchCone | BatchBowl;
  /** How high it is filled; to the brim by default. From 0 mm to 10000 mm. */
  fill?: string;
  /** How many of them; one by default. */
  count?: number;
}

/** An upright cylinder. */
export interface BatchUprightCylinder {
  /** Its name; mould 1, mould 2 ... by default. */
  mould?: string;
  /** Its shape. */
  shape: "upright cylinder";
  /** Inside diameter. From 0 mm to 10000 mm. */
  diameter: string;
  /** Height. From 0 mm to 10000 mm. */
  height: string;
  /** How high it is filled; to the brim by default. From 0 mm to 10000 mm. */
  fill?: string;
  /** How many of them; one by default. */
  count?: number;
}

/** The water. */
export interface BatchWater {
  /** Pure alkali / (pure alkali + water), by mass. From 5 % to 60 %. */
  lye_concentration?: string;
  /** Grams of water to a gram of pure alkali. From 0 to 20. */
  water_to_alkali?: string;
  /** Water as a share of the fat. From 1 % to 200 %. */
  share_of_fat?: string;
}

/** The workshop. */
export interface BatchWorkshop {
  /** Its scales. */
  scales?: (BatchScale)[];
  /** What stays in a jug that says nothing of its own. From 0 g to 1000000 g. */
  jug_residue?: string;
  /** What stays in the pot that the fats were melted in. From 0 g to 1000000 g. */
  pot_residue?: string;
  /** What stays in the vessel of the lye. From 0 g to 1000000 g. */
  lye_residue?: string;
}

/** A blend. */
export interface Blend {
  /** The format: blend/1. */
  lamella: "blend/1";
  /** What the maker calls it. */
  name: string;
  /** Free text. */
  note?: string;
  /** How much fat is to be blended; stocks need it. From 0 g to 1000000 g. */
  size?: string;
  /** Shares are whole multiples of this, such as 1 %. From 0 % to 50 %. */
  step?: string;
  /** At most so many fats. */
  fats_at_most?: number;
  /** The fats to choose from. */
  fats: (BlendBlendFat)[];
  /** What the blend must be. */
  demands?: (BlendBlendDemand)[];
  /** What it is best in, most important first. */
  aims: ("cheapest" | "nearest usual" | "nearest targets" | "least worst miss" | "fewest fats" | BlendBlendMostOf)[];
}

/** A demand. */
export interface BlendBlendDemand {
  /** Of a class of fatty acids. */
  class?: "short-saturated" | "lauric-myristic" | "palmitic-stearic" | "mono-unsaturated" | "poly-unsaturated" | "hydroxy";
  /** Of a fatty acid, such as C18:2. */
  acid?: string;
  /** Of the iodine value, the saponification value or the cost. */
  figure?: "iodine value" | "saponification value" | "cost";
  /** Of the share of the fats in a group. */
  group?: string;
  /** It is no less. */
  at_least?: string;
  /** It is no more. */
  at_most?: string;
  /** It is just so. */
  exactly?: string;
  /** It should be near this; an aim says how. */
  target?: string;
}

/** A fat to choose from. */
export interface BlendBlendFat {
  /** Id of a fat of the library. */
  fat: string;
  /** Figures of the supplier in place of the library's. */
  certificate?: BlendCertificate;
  /** What it costs, such as 7.50 EUR/kg or 38 EUR/5 kg. */
  price?: string;
  /** How much of it there is; needs size. From 0 g to 1000000 g. */
  stock?: string;
  /** Least share of the blend; 0 % by default. From 0 % to 100 %. */
  min?: string;
  /** Largest share of the blend; 100 % by default. From 0 % to 100 %. */
  max?: string;
  /** Its share in the usual blend; 0 % by default. From 0 % to 100 %. */
  usual?: string;
  /** Groups it is in, such as palm or local. */
  groups?: string[];
}

/** An aim. */
export interface BlendBlendMostOf {
  /** Id of the fat of which as much as possible is used up. */
  most_of: string;
}

/** A certificate. */
export interface BlendCertificate {
  /** Saponification value in place of the library's. From 0 mg KOH/g to 1000 mg KOH/g. */
  saponification_value?: string;
  /** Iodine value in place of the library's. From 0 g I2/100 g to 500 g I2/100 g. */
  iodine_value?: string;
  /** Unsaponifiable matter by mass. From 0 % to 100 %. */
  unsaponifiable?: string;
  /** Density at 20 °C. From 0 g/mL to 30 g/mL. */
  density?: string;
  /** Fatty acids by mass share; together 95 to 101 %. */
  profile?: Record<string, string>;
  /** Its label name (INCI), where the library has none or another. */
  inci?: string;
  /** Label name (INCI) of its sodium soap. */
  sodium_soap_inci?: string;
  /** Label name (INCI) of its potassium soap. */
  potassium_soap_inci?: string;
}

/** A setting. */
export interface Heat {
  /** The format: heat/1. */
  lamella: "heat/1";
  /** Which mould of the recipe, from 1; the first by default. */
  mould?: number;
  /** The side walls, from the soap outwards. */
  walls?: (HeatSheet)[];
  /** What lies under the soap; the table is reckoned with. */
  base?: (HeatSheet)[];
  /** What surrounds the block, by time. */
  surroundings?: (HeatSurroundings)[];
  /** Pours in the order of the layers. */
  pours?: (HeatPour)[];
  /** How long to look ahead; 48 h by default. From 0 h to 336 h. */
  until?: string;
  /** A maker's own figures, from a fit to a thermometer log. */
  own?: HeatOwn;
}

/** The own figures. */
export interface HeatOwn {
  /** Rate of the reaction, of the usual one. From 1 % to 1000 %. */
  rate?: string;
  /** Within how much of itself it is known. From 0 % to 100 %. */
  rate_within?: string;
  /** Resistances, of those reckoned from the sheets. From 1 % to 1000 %. */
  insulation?: string;
  /** Within how much of itself it is known. From 0 % to 100 %. */
  insulation_within?: string;
  /** Heat of reaction, of the usual one. From 1 % to 1000 %. */
  heat?: string;
  /** Within how much of itself it is known. From 0 % to 100 %. */
  heat_within?: string;
}

/** A pour. */
export interface HeatPour {
  /** When, after the first pour, which is at 0 min. From 0 h to 336 h. */
  at: string;
  /** Temperature of the batter, where it was measured. From -30 °C to 150 °C. */
  temperature?: string;
}

/** A sheet. */
export interface HeatSheet {
  /** What it is of. */
  sheet: "wood" | "silicone" | "plastic" | "cardboard" | "foam" | "blanket" | "steel";
  /** How thick it is. From 0 mm to 1000 mm. */
  thickness: string;
}

/** Surroundings. */
export interface HeatSurroundings {
  /** From when, after the first pour; the first from 0 h. From 0 h to 336 h. */
  from: string;
  /** Temperature of the room, the fridge or the oven. From -40 °C to 150 °C. */
  air: string;
  /** What lies on top; nothing by default. */
  cover?: (HeatSheet)[];
  /** What is wrapped around walls and cover; nothing by default. */
  around?: (HeatSheet)[];
}

/** The labour. */
export interface PricesLabour {
  /** Pay of an hour. From 0 to 1000000000. */
  rate: string;
  /** Time that the batch takes. From 0 h to 10000 h. */
  time: string;
}

/** A margin. */
export interface PricesMargin {
  /** A share of the price without tax. From 0 % to 95 %. */
  of_price?: string;
  /** A share of the cost, on top of it. From 0 % to 2000 %. */
  of_cost?: string;
}

/** A price. */
export interface PricesMaterialPrice {
  /** Id of the material, as in the recipe; naoh, koh or water for those. */
  material: string;
  /** Who sells it. */
  supplier?: string;
  /** What a pack costs. From 0 to 1000000000. */
  price: string;
  /** What is in a pack. From 0 g to 1000000 g, or 0 mL to 1000000 mL. */
  pack: string;
  /** Density of the material, when the pack is a volume. From 0 g/mL to 30 g/mL. */
  density?: string;
  /** What is bought beyond what is weighed, as a share of what is weighed. From 0 % to 100 %. */
  wastage?: string;
}

/** An overhead. */
export interface PricesOverhead {
  /** What it is. */
  overhead: string;
  /** So much for the batch. From 0 to 1000000000. */
  amount?: string;
  /** A share of materials and labour. From 0 % to 100 %. */
  share?: string;
}

/** A packaging. */
export interface PricesPackaging {
  /** What it is. */
  packaging: string;
  /** What it costs for a bar. From 0 to 1000000000. */
  each: string;
}

/** A list of prices. */
export interface Prices {
  /** The format: prices/1. */
  lamella: "prices/1";
  /** Free text. */
  note?: string;
  /** The currency of all amounts, by its three-letter code. */
  currency: string;
  /** Decimals of its smallest coin; 2 by default. */
  decimals?: number;
  /** Prices of materials. */
  materials: (PricesMaterialPrice)[];
  /** What is bought beyond what is weighed, as a share of what is weighed. From 0 % to 100 %. */
  wastage?: string;
  /** Work. */
  labour?: PricesLabour;
  /** What else a batch costs. */
  overheads?: (PricesOverhead)[];
  /** What goes around each bar. */
  packaging?: (PricesPackaging)[];
  /** Bars to be sold; those of the recipe by default. */
  bars?: number;
  /** What is to be earned. */
  margin?: PricesMargin;
  /** Tax on the price. From 0 % to 100 %. */
  tax?: string;
  /** The price to pay is a whole number of these; above nought. From 0 to 1000000000. */
  price_step?: string;
}

/** A dose of an additive. */
export interface RecipeAdditiveDose {
  /** Id of an additive of the library, or of one's own with a composition. */
  additive: string;
  /** Name of a material of one's own; its id by default. */
  name?: string;
  /** Its label name (INCI), where the library has none or another. */
  inci?: string;
  /** How much: a share of a basis, or a mass. From 0 % to 300 %, or 0 g to 1000000 g. */
  dose: string;
  /** What the share is a share of; layer fat by default, in the pot and in the lye batch fat, which is all they can have. */
  of?: "layer fat" | "layer" | "batch fat" | "batch";
  /** Whether the superfat moves (absorb, default) or the lye follows (balance). */
  treatment?: "absorb" | "balance";
  /** What it is made of: in full for a material of one's own, in part to override the library. */
  composition?: RecipeComposition;
}

/** The alkali. */
export interface RecipeAlkali {
  /** Sodium hydroxide. */
  naoh?: RecipeSodiumHydroxide;
  /** Potassium hydroxide; with its share when both are there. */
  koh?: RecipePotassiumHydroxide;
}

/** A share of potassium hydroxide. */
export interface RecipeAlkaliShare {
  /** Of the mass of both alkalis as pure substance. From 0 % to 100 %. */
  pure_mass?: string;
  /** Of the mass of both alkalis as weighed. From 0 % to 100 %. */
  weighed_mass?: string;
}

/** A bowl. */
export interface RecipeBowl {
  /** Its shape. */
  shape: "bowl";
  /** Radius of the ball. From 0 mm to 10000 mm. */
  radius: string;
  /** Height. From 0 mm to 10000 mm. */
  height: string;
}

/** A box. */
export interface RecipeBox {
  /** Its shape. */
  shape: "box";
  /** Length. From 0 mm to 10000 mm. */
  length: string;
  /** Width. From 0 mm to 10000 mm. */
  width: string;
  /** Height. From 0 mm to 10000 mm. */
  height: string;
}

/** A certificate. */
export interface RecipeCertificate {
  /** Saponification value in place of the library's. From 0 mg KOH/g to 1000 mg KOH/g. */
  saponification_value?: string;
  /** Iodine value in place of the library's. From 0 g I2/100 g to 500 g I2/100 g. */
  iodine_value?: string;
  /** Unsaponifiable matter by mass. From 0 % to 100 %. */
  unsaponifiable?: string;
  /** Density at 20 °C. From 0 g/mL to 30 g/mL. */
  density?: string;
  /** Fatty acids by mass share; together 95 to 101 %. */
  profile?: Record<string, string>;
  /** Its label name (INCI), where the library has none or another. */
  inci?: string;
  /** Label name (INCI) of its sodium soap. */
  sodium_soap_inci?: string;
  /** Label name (INCI) of its potassium soap. */
  potassium_soap_inci?: string;
}

/** A colour. */
export interface RecipeColour {
  /** Id of a colour of the library, or of one's own with a swatch. */
  colour: string;
  /** Name of a material of one's own; its id by default. */
  name?: string;
  /** How it looks in a bar, #rrggbb. */
  swatch?: string;
  /** Its number of the Colour Index, where the library has none or another. */
  colour_index?: string;
  /** How much: a share of a basis, or a mass. From 0 % to 300 %, or 0 g to 1000000 g. */
  dose: string;
  /** What the share is a share of; layer fat by default, in the pot and in the lye batch fat, which is all they can have. */
  of?: "layer fat" | "layer" | "batch fat" | "batch";
}

/** A composition. */
export interface RecipeComposition {
  /** Free water. From 0 % to 100 %. */
  water?: string;
  /** Fat that alkali can reach; needs fat_like or fat_saponification_value. From 0 % to 100 %. */
  fat?: string;
  /** Sugars. From 0 % to 100 %. */
  sugars?: string;
  /** Protein. From 0 % to 100 %. */
  protein?: string;
  /** Fibre. From 0 % to 100 %. */
  fibre?: string;
  /** Ash, salts, clay. From 0 % to 100 %. */
  minerals?: string;
  /** Ethanol. From 0 % to 100 %. */
  alcohol?: string;
  /** Glycerol and sugar alcohols. From 0 % to 100 %. */
  polyols?: string;
  /** Acid that takes up alkali; needs acid_is. From 0 % to 100 %. */
  acid?: string;
  /** Id of the fat whose fatty acids its own fat has. */
  fat_like?: string;
  /** Id of the acid. */
  acid_is?: string;
  /** In what shape it comes; paste by default for a material of one's own. */
  form?: "liquid" | "paste" | "soluble" | "insoluble";
  /** Saponification value of its own fat. From 0 mg KOH/g to 1000 mg KOH/g. */
  fat_saponification_value?: string;
  /** How it behaves in lye: water and salt dissolve in the water before the alkali, frozen scorches and is frozen with it, boiled foams and is boiled flat first, hot dissolves in hot lye, cooled goes into clear cool lye, fats does not belong in lye. By default as the library says, or by what it is made of. */
  in_lye?: "water" | "salt" | "frozen" | "boiled" | "hot" | "cooled" | "fats";
}

/** A cone. */
export interface RecipeCone {
  /** Its shape. */
  shape: "cone";
  /** Diameter at the bottom. From 0 mm to 10000 mm. */
  bottom_diameter: string;
  /** Diameter at the top. From 0 mm to 10000 mm. */
  top_diameter: string;
  /** Height. From 0 mm to 10000 mm. */
  height: string;
}

/** A fat. */
export interface RecipeFat {
  /** Id of a fat of the library. */
  fat: string;
  /** Share of all the fat; the shares of all fats sum to exactly 100 %. From 0 % to 100 %. */
  share?: string;
  /** Mass, in place of a share; then all fats have one, and the batch is that large. From 0 g to 1000000 g. */
  mass?: string;
  /** When it goes in: into the pot (default), or held back until after the cook. */
  stage?: "pot" | "after cook";
  /** What the supplier's certificate states in place of the library. */
  certificate?: RecipeCertificate;
}

/** A dose of a fat. */
export interface RecipeFatDose {
  /** Id of a fat of the library. */
  fat: string;
  /** How much: a share of a basis, or a mass. From 0 % to 300 %, or 0 g to 1000000 g. */
  dose: string;
  /** What the share is a share of; layer fat by default, in the pot and in the lye batch fat, which is all they can have. */
  of?: "layer fat" | "layer" | "batch fat" | "batch";
  /** Whether the superfat moves (absorb, default) or the lye follows (balance). */
  treatment?: "absorb" | "balance";
  /** What the supplier's certificate states in place of the library. */
  certificate?: RecipeCertificate;
}

/** A superfat. */
export interface RecipeFatExcess {
  /** Fat beyond what the alkali meets, as a share of the fat it meets. From 0 % to 50 %. */
  fat_excess: string;
}

/** A frustum. */
export interface RecipeFrustum {
  /** Its shape. */
  shape: "frustum";
  /** Length at the bottom. From 0 mm to 10000 mm. */
  bottom_length: string;
  /** Width at the bottom. From 0 mm to 10000 mm. */
  bottom_width: string;
  /** Length at the top. From 0 mm to 10000 mm. */
  top_length: string;
  /** Width at the top. From 0 mm to 10000 mm. */
  top_width: string;
  /** Height. From 0 mm to 10000 mm. */
  height: string;
}

/** A jug. */
export interface RecipeJug {
  /** Its name. */
  jug: string;
  /** Its own mass; none when the scale is set to nought with the jug on it. From 0 g to 1000000 g. */
  tare?: string;
  /** What stays on its walls; the workshop's by default. From 0 g to 1000000 g. */
  residue?: string;
  /** What is stirred into the mixture. */
  doses?: (RecipeAdditiveDose | RecipeFatDose)[];
  /** Colours of the mixture. */
  colours?: (RecipeColour)[];
  /** Scents of the mixture. */
  scents?: (RecipeScent)[];
}

/** A layer. */
export interface RecipeLayer {
  /** Its name. */
  layer: string;
  /** How much of the bar it is; all layers say it the same way. From 0 parts to 1000000 parts, or 0 mm to 10000 mm, or 0 g to 1000000 g, or 0 mL to 1000000 mL. */
  share: string;
  /** Name of the jug it is poured from; one of its own by default. */
  jug?: string;
  /** What is stirred into it. */
  doses?: (RecipeAdditiveDose | RecipeFatDose)[];
  /** Its colours. */
  colours?: (RecipeColour)[];
  /** Its scents. */
  scents?: (RecipeScent)[];
}

/** A liquid. */
export interface RecipeLiquid {
  /** Id of a liquid of the library, or of one's own with a composition. */
  liquid: string;
  /** Name of a material of one's own; its id by default. */
  name?: string;
  /** Its label name (INCI), where the library has none or another. */
  inci?: string;
  /** Share of the lye's water that is water of this liquid. From 0 % to 100 %. */
  share: string;
  /** Whether the superfat moves (absorb, default) or the lye follows (balance). */
  treatment?: "absorb" | "balance";
  /** What it is made of: in full for a material of one's own, in part to override the library. */
  composition?: RecipeComposition;
}

/** A loaf mould. */
export interface RecipeLoaf {
  /** Its name; mould 1, mould 2 ... by default. */
  mould?: string;
  /** Its shape. */
  shape: "loaf";
  /** Inside length. From 0 mm to 10000 mm. */
  length: string;
  /** Inside width. From 0 mm to 10000 mm. */
  width: string;
  /** Height of the walls. From 0 mm to 10000 mm. */
  height: string;
  /** How high it is filled; to the brim by default. From 0 mm to 10000 mm. */
  fill?: string;
  /** How many of them; one by default. */
  count?: number;
}

/** The lye. */
export interface RecipeLye {
  /** Liquids in place of water. */
  liquids?: (RecipeLiquid)[];
  /** What is dissolved in it; in grams or of the batch fat. */
  doses?: (RecipeAdditiveDose | RecipeFatDose)[];
}

/** A lying cylinder. */
export interface RecipeLyingCylinder {
  /** Its name; mould 1, mould 2 ... by default. */
  mould?: string;
  /** Its shape. */
  shape: "lying cylinder";
  /** Inside diameter. From 0 mm to 10000 mm. */
  diameter: string;
  /** Inside length. From 0 mm to 10000 mm. */
  length: string;
  /** How high it is filled; to the brim by default. From 0 mm to 10000 mm. */
  fill?: string;
  /** How many of them; one by default. */
  count?: number;
}

/** A potassium hydroxide. */
export interface RecipePotassiumHydroxide {
  /** Pure alkali as a mass share of what is weighed. From 10 % to 100 %. */
  purity?: string;
  /** Carbonate as a mass share; 0 % by default. From 0 % to 100 %. */
  carbonate?: string;
  /** How far the purity may be from what is stated, either way; only the certainty of the superfat asks. From 0 % to 20 %. */
  purity_within?: string;
  /** Share of potassium hydroxide beside sodium hydroxide; as a text, of the alkali demand in moles. */
  share?: string | RecipeAlkaliShare;
}

/** A scale. */
export interface RecipeScale {
  /** Its name. */
  scale: string;
  /** Smallest difference it shows; above nought. From 0 g to 1000 g. */
  step: string;
  /** Most it carries, vessel included; at least ten steps. From 0 g to 1000000 g. */
  capacity: string;
}

/** A scent. */
export interface RecipeScent {
  /** Id of a scent of the library, or of one's own with a kind. */
  scent: string;
  /** Name of a material of one's own; its id by default. */
  name?: string;
  /** What a scent of one's own is. */
  kind?: "essential oil" | "compound";
  /** Its label name (INCI), where the library has none or another. */
  inci?: string;
  /** How much: a share of a basis, or a mass. From 0 % to 300 %, or 0 g to 1000000 g. */
  dose: string;
  /** What the share is a share of; layer fat by default, in the pot and in the lye batch fat, which is all they can have. */
  of?: "layer fat" | "layer" | "batch fat" | "batch";
  /** What the supplier's certificate states. */
  certificate?: RecipeScentCertificate;
}

/** An allergen of a scent. */
export interface RecipeScentAllergen {
  /** Its name on the label, its id, an isomer or an oil that is summed under it, or its CAS number. */
  allergen: string;
  /** Its share of the scent by mass. From 0 % to 100 %. */
  share: string;
}

/** A certificate of a scent. */
export interface RecipeScentCertificate {
  /** The supplier's name or number for it. */
  reference?: string;
  /** Amendment of the fragrance standards. */
  amendment?: number;
  /** Largest share of the finished bar in the category of bar soap (category 9); above nought. From 0 % to 100 %. */
  limit?: string;
  /** Fragrance allergens in it; together at most 100 %. */
  allergens?: (RecipeScentAllergen)[];
  /** Vanillin, which browns soap. From 0 % to 100 %. */
  vanillin?: string;
  /** Flash point. From 0 °C to 300 °C. */
  flash_point?: string;
}

/** The size. */
export interface RecipeSize {
  /** So much fat. From 0 g to 1000000 g. */
  fat?: string;
  /** So much poured, everything together. From 0 g to 1000000 g. */
  batter?: string;
  /** So many bars of each so much. */
  bars?: number;
  /** Mass of one bar, fresh. From 0 g to 1000000 g. */
  each?: string;
  /** As much as fills the moulds. */
  moulds?: "filled";
}

/** A slab mould. */
export interface RecipeSlab {
  /** Its name; mould 1, mould 2 ... by default. */
  mould?: string;
  /** Its shape. */
  shape: "slab";
  /** Inside length. From 0 mm to 10000 mm. */
  length: string;
  /** Inside width. From 0 mm to 10000 mm. */
  width: string;
  /** Height of the walls. From 0 mm to 10000 mm. */
  height: string;
  /** Cells along the length; one by default. */
  cells_lengthwise?: number;
  /** Cells along the width; one by default. */
  cells_across?: number;
  /** Thickness of a divider; nought by default. From 0 mm to 10000 mm. */
  divider?: string;
  /** How high it is filled; to the brim by default. From 0 mm to 10000 mm. */
  fill?: string;
  /** How many of them; one by default. */
  count?: number;
}

/** A sodium hydroxide. */
export interface RecipeSodiumHydroxide {
  /** Pure alkali as a mass share of what is weighed. From 10 % to 100 %. */
  purity?: string;
  /** Carbonate as a mass share; 0 % by default. From 0 % to 100 %. */
  carbonate?: string;
  /** How far the purity may be from what is stated, either way; only the certainty of the superfat asks. From 0 % to 20 %. */
  purity_within?: string;
}

/** A tapered loaf mould. */
export interface RecipeTaperedLoaf {
  /** Its name; mould 1, mould 2 ... by default. */
  mould?: string;
  /** Its shape. */
  shape: "tapered loaf";
  /** Inside length. From 0 mm to 10000 mm. */
  length: string;
  /** Inside width at the bottom. From 0 mm to 10000 mm. */
  bottom_width: string;
  /** Inside width at the top. From 0 mm to 10000 mm. */
  top_width: string;
  /** Height of the walls. From 0 mm to 10000 mm. */
  height: string;
  /** How high it is filled; to the brim by default. From 0 mm to 10000 mm. */
  fill?: string;
  /** How many of them; one by default. */
  count?: number;
}

/** The temperatures. */
export interface RecipeTemperatures {
  /** Of the fats at mixing. From -30 °C to 150 °C. */
  fats?: string;
  /** Of the lye at mixing. From -30 °C to 150 °C. */
  lye?: string;
}

/** A tray. */
export interface RecipeTray {
  /** Its name; mould 1, mould 2 ... by default. */
  mould?: string;
  /** Its shape. */
  shape: "tray";
  /** How many cavities it has. */
  cavities: number;
  /** One of them. */
  cavity: RecipeBox | RecipeFrustum | RecipeCone | RecipeBowl;
  /** How high it is filled; to the brim by default. From 0 mm to 10000 mm. */
  fill?: string;
  /** How many of them; one by default. */
  count?: number;
}

/** An upright cylinder. */
export interface RecipeUprightCylinder {
  /** Its name; mould 1, mould 2 ... by default. */
  mould?: string;
  /** Its shape. */
  shape: "upright cylinder";
  /** Inside diameter. From 0 mm to 10000 mm. */
  diameter: string;
  /** Height. From 0 mm to 10000 mm. */
  height: string;
  /** How high it is filled; to the brim by default. From 0 mm to 10000 mm. */
  fill?: string;
  /** How many of them; one by default. */
  count?: number;
}

/** The water. */
export interface RecipeWater {
  /** Pure alkali / (pure alkali + water), by mass. From 5 % to 60 %. */
  lye_concentration?: string;
  /** Grams of water to a gram of pure alkali. From 0 to 20. */
  water_to_alkali?: string;
  /** Water as a share of the fat. From 1 % to 200 %. */
  share_of_fat?: string;
}

/** The workshop. */
export interface RecipeWorkshop {
  /** Its scales. */
  scales?: (RecipeScale)[];
  /** What stays in a jug that says nothing of its own. From 0 g to 1000000 g. */
  jug_residue?: string;
  /** What stays in the pot that the fats were melted in. From 0 g to 1000000 g. */
  pot_residue?: string;
  /** What stays in the vessel of the lye. From 0 g to 1000000 g. */
  lye_residue?: string;
}

/** The record. */
export interface BatchRecord {
  /** The format: record/1. */
  lamella: "record/1";
  /** Number of the batch. */
  batch: string;
  /** The product, as the recipe names it. */
  product: string;
  /** Version of the formula. */
  formula?: string;
  /** Free text. */
  note?: string;
  /** When the work began. */
  started?: string;
  /** When it ended. */
  finished?: string;
  /** Who did it. */
  operators?: string[];
  /** What it was done with. */
  equipment?: (RecordRecordEquipment)[];
  /** Scales held against a weight. */
  scale_checks?: (RecordRecordScaleCheck)[];
  /** Lots of materials. */
  lots: (RecordRecordLot)[];
  /** What was weighed. */
  weighings: (RecordRecordWeighing)[];
  /** Temperatures that were taken. */
  temperatures?: (RecordRecordTemperature)[];
  /** Layers in the order in which they were poured. */
  layers?: (RecordRecordLayer)[];
  /** What was seen and done. */
  events?: (RecordRecordEvent)[];
  /** What went otherwise than planned. */
  deviations?: (RecordRecordDeviation)[];
  /** What was tested. */
  checks?: (RecordRecordCheck)[];
  /** Layers on hold when the log was taken over. */
  holds?: (RecordRecordHold)[];
  /** What came out. */
  output?: RecordRecordOutput;
  /** Day from which the cure counts. */
  cure_from?: string;
  /** The mark by which a bar is known to be of this batch. */
  code?: string;
  /** The label that went on it, by its name or version. */
  label?: string;
  /** Bars that are kept. */
  samples?: RecordRecordSamples;
  /** Who let it go, or kept it back. */
  release?: RecordRecordRelease;
}

/** A check. */
export interface RecordRecordCheck {
  /** What was tested: weight, free alkali, pH, look. */
  check: string;
  /** What was found. */
  result: string;
  /** How it ended. */
  outcome: "pass" | "fail";
  /** The layer that was tested, where it was one. */
  layer?: string;
  /** Free caustic alkali that was found in it, as sodium hydroxide (ISO 456). From 0 % to 20 %. */
  free_alkali?: string;
  /** When. */
  at?: string;
  /** By whom. */
  by?: string;
}

/** A deviation. */
export interface RecordRecordDeviation {
  /** What went otherwise than planned. */
  what: string;
  /** What was done about it. */
  action?: string;
  /** By whom. */
  by?: string;
}

/** A piece of equipment. */
export interface RecordRecordEquipment {
  /** What it is. */
  equipment: string;
  /** When it was cleaned. */
  cleaned?: string;
  /** By whom. */
  by?: string;
}

/** An event. */
export interface RecordRecordEvent {
  /** What was seen or done. */
  what: string;
  /** When. */
  at?: string;
}

/** A hold. */
export interface RecordRecordHold {
  /** The layer. */
  layer: string;
  /** Its superfat as weighed. From -100000000 % to 100 %. */
  superfat?: string;
  /** The least that its superfat can be. From -100000000 % to 100 %. */
  worst?: string;
  /** Free caustic alkali that a test found, too much of it. From 0 % to 20 %. */
  free_alkali?: string;
}

/** A layer. */
export interface RecordRecordLayer {
  /** Its name. */
  layer: string;
  /** When. */
  at?: string;
  /** How much was poured. From 0 g to 1000000 g. */
  mass?: string;
}

/** A lot. */
export interface RecordRecordLot {
  /** The maker's own name of it. */
  lot: string;
  /** Id of the material, as in the recipe. */
  material: string;
  /** Who supplied it. */
  supplier?: string;
  /** The supplier's name of the lot. */
  supplier_lot?: string;
  /** When it came. */
  received?: string;
  /** When it was opened. */
  opened?: string;
  /** Last day of its life. */
  expires?: string;
  /** The batch that it is made of, when it is soap that is worked in again. */
  batch?: string;
}

/** The output. */
export interface RecordRecordOutput {
  /** Good bars. */
  bars: number;
  /** Bars that were not good; none by default. */
  rejected?: number;
  /** Mass of the good bars. From 0 g to 1000000 g. */
  mass?: string;
}

/** The release. */
export interface RecordRecordRelease {
  /** What was decided. */
  decision: "released" | "held" | "rejected";
  /** By whom. */
  by: string;
  /** Day of the decision. */
  on: string;
}

/** A note of samples. */
export interface RecordRecordSamples {
  /** How many bars are kept. */
  count: number;
  /** Where. */
  place?: string;
}

/** A check of a scale. */
export interface RecordRecordScaleCheck {
  /** Which scale. */
  scale: string;
  /** The known weight. From 0 g to 1000000 g. */
  weight: string;
  /** What the scale showed. From 0 g to 1000000 g. */
  shown: string;
  /** When. */
  at?: string;
}

/** A temperature. */
export interface RecordRecordTemperature {
  /** Of what: lye, fats, batter, room. */
  what: string;
  /** What it was. From -30 °C to 150 °C. */
  value: string;
  /** When. */
  at?: string;
}

/** A weighing. */
export interface RecordRecordWeighing {
  /** The lot it came from. */
  lot: string;
  /** What the scale showed. From 0 g to 1000000 g. */
  mass: string;
  /** When. */
  at?: string;
  /** By whom. */
  by?: string;
  /** On which scale. */
  scale?: string;
  /** Into what: the pot, the lye, a jug. */
  into?: string;
}

/** The trial. */
export interface Trial {
  /** The format: trial/1. */
  lamella: "trial/1";
  /** Number of the batch. */
  batch: string;
  /** Free text. */
  note?: string;
  /** When it was tried. */
  on?: string;
  /** Age of the bar. From 0 d to 3650 d. */
  age?: string;
  /** Who tried it. */
  by?: string;
  /** The water in words: from the tap, hard, rain. */
  water?: string;
  /** Temperature of the water. From 0 °C to 60 °C. */
  temperature?: string;
  /** The lather in words. */
  lather?: string;
  /** How the skin feels, at once and later. */
  feel?: string;
  /** How the bar looks and smells. */
  look?: string;
  /** Height of the foam in a shaken glass. */
  foam?: TrialTrialFoam;
  /** What a number of washes takes off the bar. */
  washes?: TrialTrialWashes;
  /** pH of a solution. */
  ph?: TrialTrialPh;
}

/** The foam. */
export interface TrialTrialFoam {
  /** How high it stands at once; above nought. From 0 mm to 10000 mm. */
  height: string;
  /** How high it still stands later. From 0 mm to 10000 mm. */
  later?: string;
  /** How much later that is. From 0 min to 1440 min. */
  after?: string;
}

/** The pH. */
export interface TrialTrialPh {
  /** What it was. From 0 to 14. */
  value: string;
  /** How strong the solution was, by mass. From 0 % to 100 %. */
  solution: string;
}

/** A test of washes. */
export interface TrialTrialWashes {
  /** How many. */
  count: number;
  /** The bar before; above nought. From 0 g to 1000000 g. */
  before: string;
  /** The bar after, dried; less than before. From 0 g to 1000000 g. */
  after: string;
}

/** A bar. */
export interface WeighingsWeighedBar {
  /** Its name. */
  bar: string;
  /** Its weighings. */
  weighings: (WeighingsWeighing)[];
}

/** A weighing. */
export interface WeighingsWeighing {
  /** Age of the bar since the cut. From 0 d to 3650 d. */
  age?: string;
  /** Day of the weighing, in place of the age. */
  date?: string;
  /** What the bar weighed; above nought. From 0 g to 1000000 g. */
  mass: string;
  /** Standard uncertainty of the weighing; then all of the bar have one. From 0 g to 1000000 g. */
  uncertainty?: string;
}

/** A list of weighings. */
export interface Weighings {
  /** The format: weighings/1. */
  lamella: "weighings/1";
  /** The batch. */
  batch: string;
  /** Free text. */
  note?: string;
  /** The day on which the batch was cut; needed when a weighing has a date. */
  cut?: string;
  /** Loss of a week below which a bar counts as dry; 0.5 % of the bar by default. From 0 % to 20 %. */
  settled_below?: string;
  /** The bars that are weighed. */
  bars: (WeighingsWeighedBar)[];
}

/** A number with its unit, written as text. */
export type Mass = string;

/** A number with its unit, written as text. */
export type Volume = string;

/** A number with its unit, written as text. */
export type Length = string;

/** A number with its unit, written as text. */
export type Temperature = string;

/** A number with its unit, written as text. */
export type Share = string;

/** A number with its unit, written as text. */
export type SaponificationValue = string;

/** A number with its unit, written as text. */
export type IodineValue = string;

/** A number with its unit, written as text. */
export type Density = string;

/** A number with its unit, written as text. */
export type Duration = string;

/**
 * A batch, planned. Every mass stands twice where it matters: at full precision and in whole scale steps; chemistry is
 * that of the weighed amounts unless a name says "ideal".
 */
export interface Plan {
  /** Which document this is: `plan/1`. */
  lamella: string;
  /** What the maker calls it. */
  name: string;
  /** What the maker says about it; may be empty. */
  note: string;
  /** Who it is for. */
  for: Purpose;
  /** Raw or cooked. */
  process: Process;
  /** Scales of the workshop, the finest first; items point into this list. */
  scales: ScaleLine[];
  /** Temperatures at mixing. */
  temperatures: Temperatures;
  /** The moulds; heights of layers point into this list. */
  moulds: MouldLine[];
  /** The pot of fats. */
  pot: PotPlan;
  /** The lye. */
  lye: LyePlan;
  /** The jugs, in the order of their first pour. */
  jugs: JugPlan[];
  /** The layers, from the bottom. */
  layers: LayerPlan[];
  /** What the batch is as a whole. */
  batch: BatchFigures;
  /** What is worth the maker's attention. */
  cautions: Caution[];
  /**
   * Layers that are kept apart because they may hold free alkali. Nothing of them is used, labelled, sold or given away
   * while they stand here.
   */
  holds?: Hold[];
  /** The order of work. */
  steps: Step[];
}

/** Who a batch is for. Only goods to be sold need an assessment; the chemistry is the same. */
export type Purpose =
  /** For the maker's own household. */
  | "household"
  /** To be sold or given away. */
  | "sale";

/** Whether the batter is poured raw or cooked first. */
export type Process =
  /** Poured at trace; saponifies in the mould. */
  | "cold"
  /** Cooked until saponified, then filled. */
  | "hot";

/** A scale of the workshop. */
export interface ScaleLine {
  /** What the maker calls it. */
  name: string;
  /** Smallest difference it shows. */
  step: Mass;
  /** Most it carries. */
  capacity: Mass;
}

/** Temperatures at mixing, for densities and cautions. */
export interface Temperatures {
  /** Of the fats. */
  fats: Temperature;
  /** Of the lye. */
  lye: Temperature;
}

/** A mould, or several of one kind. */
export interface MouldLine {
  /** What the maker calls it. */
  name: string;
  /** How many. */
  count: number;
  /** How high each may be filled. */
  fill: Length;
  /** What all of them take up to that. */
  capacity: Volume;
}

/** The pot in which the fats are melted together. */
export interface PotPlan {
  /** Its fats. */
  fats: WeighItem[];
  /** What is stirred in before it is divided. */
  doses: WeighItem[];
  /** All of it, weighed. */
  total: Mass;
  /** What stays in it when the jugs have theirs. */
  left: Mass;
}

/** One thing to weigh. */
export interface WeighItem {
  /** Id of the material. */
  id: string;
  /** Its name. */
  name: string;
  /** At full precision. */
  ideal: Mass;
  /** In whole steps of the scale. */
  weighed: Mass;
  /** Index of the scale in the workshop. */
  scale: number;
  /** JSON Pointer to the line of the recipe that asks for it. */
  pointer: string;
}

/** The lye. */
export interface LyePlan {
  /** The alkalis. */
  alkalis: WeighItem[];
  /** How pure each of them is reckoned to be. */
  purities: Share[];
  /** Plain water. */
  water: WeighItem;
  /** Liquids in place of water. */
  liquids: WeighItem[];
  /** What is dissolved in it. */
  doses: WeighItem[];
  /** All of it, weighed. */
  total: Mass;
  /** What stays in its vessel. */
  left: Mass;
  /** The order in which it is made; each item of it stands in one step. */
  order: LyeStep[];
  /** What the alkali meets in that order. */
  dissolving: Dissolving;
  /** What it is. */
  figures: LyeFigures;
}

/** A step of making the lye. */
export interface LyeStep {
  /** What is done. */
  work: LyeWork;
  /** The step of the whole work that it is part of: `freeze` the day before, or `make-lye`. */
  step: Work;
  /** What is weighed in it, by the JSON Pointers of the items. */
  items: string[];
}

/** What is done at a step of making the lye. */
export type LyeWork =
  /** Boil beer and wine flat, let them cool, and weigh them in. */
  | "boil"
  /** Weigh in water and what is water in all but name. */
  | "water"
  /** Stir in what dissolves in it, acids first. */
  | "dissolve"
  /** Stir in what would scorch, and freeze all of it to slush. */
  | "freeze"
  /** Pour in ready-made lye, the weakest first. */
  | "pour"
  /** Stir in solid alkali, a little at a time. */
  | "alkali"
  /** Stir in what dissolves in hot lye. */
  | "hot"
  /** Let it come to its temperature. */
  | "cool"
  /** Stir in what goes into clear, cool lye, and powders. */
  | "last";

/** What is to be done. */
export type Work =
  /** Line moulds, lay out jugs, weigh empty ones. */
  | "prepare"
  /** Put on goggles and gloves, open a window. */
  | "protect"
  /** The day before: weigh what the lye is made with, and freeze it to slush. Only where something in it would scorch. */
  | "freeze"
  /** Dissolve the alkali in its water, and let it cool. */
  | "make-lye"
  /** Weigh and melt the fats, stir in what goes into the pot. */
  | "fill-pot"
  /** Weigh out additives, colours and scents. */
  | "weigh-doses"
  /** Divide the pot over the jugs. */
  | "divide"
  /** Stir a jug's additives and colours into its fat. */
  | "enrich"
  /** Add a jug's lye, and blend. */
  | "add-lye"
  /** Cook until saponified. */
  | "cook"
  /** Stir in fat that was held back. */
  | "add-held"
  /** Add scents and other last doses. */
  | "finish"
  /** Pour a layer. */
  | "pour"
  /** Wait until a layer carries the next one. */
  | "wait"
  /** Cover, and leave alone. */
  | "rest"
  /** Cut, and put to cure. */
  | "cut";

/** The lye when all its alkali has gone in, before anything that comes later: the most alkali to the least water. */
export interface Dissolving {
  /** Pure sodium hydroxide. */
  sodium_hydroxide: Mass;
  /** Pure potassium hydroxide. */
  potassium_hydroxide: Mass;
  /** Water that it meets: plain, of what went in before, and of the alkali itself. */
  water: Mass;
  /** Pure alkali / (pure alkali + water). */
  concentration: Share;
  /** Water / pure alkali, as a number. */
  water_to_alkali: Share;
}

/** What the weighed lye is. */
export interface LyeFigures {
  /** Pure sodium hydroxide in it. */
  sodium_hydroxide: Mass;
  /** Pure potassium hydroxide in it. */
  potassium_hydroxide: Mass;
  /** All its water: plain, of liquids, of the alkali itself. */
  water: Mass;
  /** Pure alkali / (pure alkali + water). */
  concentration: Share;
  /** Water / pure alkali, as a number. */
  water_to_alkali: Share;
  /** Water / all the fat. */
  water_of_fat: Share;
  /** Its volume at the temperature of the recipe. */
  volume: Volume;
  /** Its density at that temperature. */
  density: Density;
}

/** A jug. */
export interface JugPlan {
  /** What it is called; the name of its layer when it has none of its own. */
  name: string;
  /** Its layers, in pour order. */
  layers: number[];
  /** Its own mass, where known. */
  tare: Mass | null;
  /** What it gets from the pot. */
  portion: Weighing;
  /** Fats that go in after the cook. */
  held: WeighItem[];
  /** What goes in before the lye. */
  doses: WeighItem[];
  /** What goes in after the lye: scents, and doses on what is in the jug. */
  late_doses: WeighItem[];
  /** What it gets of the lye. */
  lye: Weighing;
  /** Pure alkali dissolved in that lye. */
  alkali: Mass;
  /** Water in that lye. */
  lye_water: Mass;
  /** All that is in it. */
  net: Mass;
  /** What the scale shows with it. */
  gross: Mass;
  /** What stays in it after the last pour. */
  left: Mass;
  /** Superfat at full precision. */
  superfat_ideal: Share;
  /** Superfat of what is weighed. */
  superfat: Share;
  /** Fat of every kind as a share of what is in it. */
  fat_share: Share;
  /** Water as a share of that fat. */
  water_of_fat: Share;
  /** Sugars as a share of that fat. */
  sugars_of_fat: Share;
  /** Density of its batter. */
  density: Density;
  /** What is in it, as poured. */
  at_pour: Makeup;
  /** After the reaction. */
  reacted: Makeup;
  /** Cured. */
  cured: Makeup;
}

/** A part of a whole that is weighed out of a vessel. */
export interface Weighing {
  /** At full precision. */
  ideal: Mass;
  /** In whole steps of the scale. */
  weighed: Mass;
  /** Index of the scale in the workshop. */
  scale: number;
}

/** What something is made of, by mass; the parts sum to the total exactly. */
export interface Makeup {
  /** Constituents that are there, in the order of `Part`. */
  parts: [Part, Mass][];
  /** All of it. */
  total: Mass;
  /**
   * Total fatty matter in the sense of ISO 685, as a share of the whole: fatty acids of the soap, unreacted fat,
   * unsaponifiable matter and alcohols of waxes.
   */
  total_fatty_matter: Share;
}

/** A constituent of a bar. */
export type Part =
  /** Fat as it was charged, before the reaction. */
  | "fat"
  /** Soap: alkali salts of fatty acids. */
  | "soap"
  /** Glycerol set free by the reaction. */
  | "glycerol"
  /** Fat that stayed unreacted, without its unsaponifiable matter. */
  | "unreacted-fat"
  /** Unsaponifiable matter. */
  | "unsaponifiable"
  /** Alcohols and sterols set free from waxes. */
  | "wax-alcohols"
  /** Water. */
  | "water"
  /** Alkali, pure: all of it at pour, what is left over afterwards. */
  | "alkali"
  /** Carbonate that came with the alkali. */
  | "carbonate"
  /** Acids, as they were charged or left over. */
  | "acids"
  /** Salts of such acids. */
  | "acid-salts"
  /** Sugars. */
  | "sugars"
  /** Glycerol and sugar alcohols that were added. */
  | "polyols"
  /** Protein. */
  | "protein"
  /** Fibre. */
  | "fibre"
  /** Minerals: clay, salt, ash. */
  | "minerals"
  /** Ethanol. */
  | "alcohol"
  /** What the additives' compositions do not name. */
  | "other"
  /** Colours. */
  | "colour"
  /** Scents. */
  | "scent";

/** A layer. */
export interface LayerPlan {
  /** What it is called. */
  name: string;
  /** Index of its jug in the plan. */
  jug: number;
  /** What is poured. */
  portion: Mass;
  /** What the scale shows before and after. */
  reading: Reading;
  /** Volume of the portion. */
  volume: Volume;
  /** Where it lies in each mould that it fits in. */
  heights: Height[];
  /** How it looks, `#rrggbb`, for drawing. */
  swatch: string;
}

/**
 * What the scale shows with the jug on it, before and after a pour. With a tare that is not known the jug counts as
 * nought, as on a scale set to nought with the empty jug.
 */
export interface Reading {
  /** Before the pour. */
  before: Mass;
  /** After it: pour until the scale shows this. */
  after: Mass;
}

/** Where a layer lies in a mould. */
export interface Height {
  /** Index of the mould. */
  mould: number;
  /** Lower face, above the bottom. */
  from: Length;
  /** Upper face. */
  to: Length;
}

/** What the batch is, all of it that is poured. */
export interface BatchFigures {
  /** Fat of the recipe's fat lines, at full precision. */
  fat_ideal: Mass;
  /** The same as weighed. */
  fat: Mass;
  /** Everything that is weighed in: `poured` and `left` together, exactly. */
  weighed_in: Mass;
  /** Everything that stays behind in the pot, in the vessel of the lye and in the jugs. */
  left: Mass;
  /** Everything that is mixed. */
  mixed: Mass;
  /** Everything that is poured. */
  poured: Mass;
  /** Its volume. */
  volume: Volume;
  /** Density of the batter. */
  density: Density;
  /** The bars, where the recipe says how many. */
  bars: Bars | null;
  /** Superfat that the recipe asks for, as the share of the demand left unmet. */
  superfat_aimed: Share;
  /** Superfat of all that is mixed, at full precision. */
  superfat_ideal: Share;
  /** Superfat of all that is mixed, from what is weighed. */
  superfat: Share;
  /** Alkali that all its fat demands, in grams of potassium hydroxide, from what is weighed. */
  demand_koh: Mass;
  /** Alkali that its acids take up, in grams of potassium hydroxide. */
  acid_koh: Mass;
  /** Indices of all its fat, that of the additives included where its profile is known. */
  indices: Indices;
  /** Soap by fatty acid in all that is poured. */
  soap_acids: [FattyAcid, Mass][];
  /** What is poured, as poured. */
  at_pour: Makeup;
  /** After the reaction. */
  reacted: Makeup;
  /** Cured. */
  cured: Makeup;
}

/** The bars that a recipe asks for, as they come out. */
export interface Bars {
  /** How many. */
  count: number;
  /** One of them, fresh: its part of what is poured. */
  fresh: Mass;
  /** The same, cured. */
  cured: Mass;
}

/** What describes a blend of fats. */
export interface Indices {
  /** Saponification value from those the fats are reckoned with: the mean by mass, mg KOH/g. */
  saponification_value: SaponificationValue;
  /** Saponification value computed from the profiles (mole mean), of the fats that have one; a check on the former. */
  computed_saponification_value: SaponificationValue | null;
  /** Iodine value computed from the profiles by AOCS Cd 1c-85, of the fats that have one. */
  computed_iodine_value: IodineValue | null;
  /** Mass shares of the classes in the fatty acids, in the order of `Class::ALL`. */
  classes: ClassShare[];
  /** Share of the fat that the computed values speak of: triglycerides and fatty acids with a profile. */
  profiled: Share;
}

/** A class and its mass share of the fatty acids. */
export interface ClassShare {
  /** Which class. */
  class: Class;
  /** Its share. */
  share: Share;
}

/** The classes in which a bar's fat is described, as mass shares of its fatty acids. */
export type Class =
  /** Saturated, up to ten carbons (C4 to C10). */
  | "short-saturated"
  /** Saturated C12 to C14. */
  | "lauric-myristic"
  /** Saturated C15 and longer. */
  | "palmitic-stearic"
  /** One double bond. */
  | "mono-unsaturated"
  /** Two double bonds or more. */
  | "poly-unsaturated"
  /** With a hydroxyl group. */
  | "hydroxy";

/** A fatty acid as a profile names it: `C18:1` has 18 carbons and one double bond; `-OH` marks the hydroxy acid. */
export type FattyAcid = string;

/** One thing worth the maker's attention. */
export interface Caution {
  /** Stable code; every one is listed in `CODES`. */
  code: string;
  /** JSON Pointer to what it is about in the recipe; empty for the batch. */
  pointer: string;
  /** What it is about, by name. */
  place: string;
  /** What is found, in one sentence. */
  message: string;
  /** The figure, with its unit. */
  figure: string;
  /** What it is held against, with its unit. */
  limit: string;
  /** What the limit rests on. */
  basis: BasisKind;
  /** The source, or what kind of practice it is. */
  source: string;
  /** What to do. */
  advice: string;
}

/** What kind of thing a figure rests on. */
export type BasisKind =
  /** A published standard. */
  | "standard"
  /** A law or regulation. */
  | "regulation"
  /** A handbook or a paper. */
  | "handbook"
  /** A public dataset. */
  | "dataset"
  /** A supplier's certificate or label. */
  | "supplier"
  /** Arithmetic on other stated figures. */
  | "derived"
  /** Common practice of the trade, without a source. */
  | "common-practice"
  /** From memory: the source was not read. */
  | "memory";

/** A layer that is on hold. */
export interface Hold {
  /** The layer. */
  layer: string;
  /** Its superfat as weighed, where it is known. */
  superfat: Share | null;
  /** The least that its superfat can be (see `crate::certainty`), where that was worked out. */
  worst: Share | null;
  /** Free caustic alkali that the last test of it found, as sodium hydroxide, where it was too much. */
  free_alkali: Share | null;
}

/** A step of the work. */
export interface Step {
  /** What is to be done. */
  work: Work;
  /** Index of the jug that it is done to. */
  jug: number | null;
  /** Index of the layer that it is about. */
  layer: number | null;
}

/** Something wrong in a maker's document: data, collected and not thrown. A plan is made only when there is none. */
export interface Problem {
  /** Stable code, `area.noun.what`; every one is listed in `CODES`. */
  code: string;
  /** JSON Pointer (RFC 6901) to the place in the document; empty for the document as a whole. */
  pointer: string;
  /** What is wrong: found value and what is allowed, in one sentence. */
  message: string;
  /** What to do about it. */
  advice: string;
}

/** The cross-section of a bar. */
export interface Picture {
  /**
   * Whether it is the mould of the recipe, to scale; otherwise the recipe has none, and the layers are drawn by volume
   * in one of usual width.
   */
  to_scale: boolean;
  /** Widest width, mm. */
  width: Length;
  /** From the bottom to the brim. */
  depth: Length;
  /** How high the mould is to be filled. */
  fill: Length;
  /** The hollow as the data of an SVG path in millimetres, y from the brim downwards. */
  hollow: string;
  /** The layers, from the bottom. */
  layers: PictureLayer[];
}

/** A layer of a `Picture`. */
export interface PictureLayer {
  /** Its outline; empty where it does not fit. */
  outline: BandOutline;
  /** How thick it is. */
  thickness: Length;
  /** How it looks, `#rrggbb`. */
  swatch: string;
}

/** A layer of an `Outline`. */
export interface BandOutline {
  /** Its shape as the data of an SVG path; empty where it does not show. */
  path: string;
  /** Its lower face as it is drawn, mm from the bottom. */
  from: Length;
  /** Its upper face. */
  to: Length;
}

/** Shares of two neighbours after their edge was moved; together they are what they were. */
export interface Dragged {
  /** Share of the layer below, as a document states it. */
  below: string;
  /** Share of the layer above. */
  above: string;
}

/** One thing to do. */
export interface Task {
  /** Its name, which stays the same when masses change: `weigh /fats/0`, `pour Rust`. */
  key: string;
  /** What kind of work it is. */
  work: Work;
  /** What to do, in a few words. */
  title: string;
  /** What to mind, in a sentence; may be empty. */
  words: string;
  /** What is weighed. */
  weigh: Weigh | null;
  /** What is reported when it is done; nothing for work that moves nothing. */
  due: Due | null;
  /** Index of the jug. */
  jug: number | null;
  /** Index of the layer. */
  layer: number | null;
}

/** Something on the scale. */
export interface Weigh {
  /** How much. */
  mass: Mass;
  /** Of what. */
  item: string;
  /** Into what, or out of what for a pour. */
  vessel: string;
  /** Index of the scale in the workshop. */
  scale: number;
  /**
   * What the scale shows with the vessel on it before and after, where it is the vessel that stands on the scale. With
   * a tare that is not known the vessel counts as nought.
   */
  reading: Reading | null;
}

/** What a maker reports of it, in the words of the log of a batch. */
export type Due =
  /** So much of an item of the plan went in. */
  | { "weighed": { item: string; vessel: string | null; } }
  /** A layer was poured, and the scale shows what is left with its jug. */
  | { "reads": { jug: string; } };

/** A figure, and what stands behind it. */
export interface Explanation {
  /** What the figure is. */
  title: string;
  /** How it is reckoned, in words. */
  how: string;
  /** What it is reckoned from. */
  from: Input[];
  /** Whose numbers those are. */
  sources: Basis[];
}

/** A figure that another is reckoned from. */
export interface Input {
  /** What it is. */
  name: string;
  /** Its value, with its unit. */
  value: string;
}

/** One source, and which figures rest on it. */
export interface Basis {
  /** What rests on it, in words: "saponification value, iodine value". */
  what: string;
  /** What kind of source it is. */
  kind: BasisKind;
  /** The citation: title, edition, table or page. */
  cite: string;
  /** Whether the figure was read in the cited text; otherwise it is from memory of it. */
  seen: boolean;
}

/** A sheet in its parts, for a screen that sets them itself. Written with serde it is a `page/1` document. */
export interface Page {
  /** Which document this is: `page/1`. */
  lamella: string;
  /** Its parts, from top to bottom. */
  blocks: Block[];
}

/** One thing on a sheet, from top to bottom. */
export type Block =
  /** The name of the batch. */
  | { is: "title"; of: string }
  | { is: "heading"; of: string }
  | { is: "subheading"; of: string }
  | { is: "paragraph"; of: string }
  | { is: "list"; of: string[] }
  | { is: "numbered"; of: string[] }
  | { is: "table"; of: Table };

/** Rows under common columns. */
export interface Table {
  columns: Column[];
  rows: Row[];
}

/** A column; one without a title is understood without. */
export interface Column {
  title: string;
  align: Align;
}

/** Words stand left and may be wrapped, figures stand right and are kept whole. */
export type Align =
  | "words"
  | "figures";

export interface Row {
  cells: Cell[];
  /** Whether it sums up the rows above. */
  sum: boolean;
}

export type Cell =
  | "empty"
  /** A box to tick when it is done. */
  | "tick"
  | { "text": string };

/** How sure the superfats of a plan are. */
export interface Certainty {
  /** Which document this is: `certainty/1`. */
  lamella: string;
  /** What is uncertain; corners and budgets point into this list. */
  inputs: CertaintyInput[];
  /** The jugs, as in the plan. */
  jugs: JugCertainty[];
  /** All jugs together. */
  batch: Figures;
  /** Index of the jug whose superfat can be the lowest. */
  binding: number;
}

/** An uncertain figure: it may be anything from its lower to its upper end. */
export interface CertaintyInput {
  /** What kind of figure. */
  kind: InputKind;
  /** Of what, in words: "saponification value of Olive oil". */
  name: string;
  /** Lower end, in `unit`. */
  low: Exact;
  /** Upper end, in `unit`. */
  high: Exact;
  /** Unit of both; empty for a share as a fraction. */
  unit: string;
  /** Readings of the scale in it: two for what is the difference of two, else one. */
  readings: number;
  /** What the range rests on. */
  basis: string;
}

/** What kind of figure is uncertain. */
export type InputKind =
  /** Saponification value of a fat: one bottle has one, wherever it goes. */
  | "saponification-value"
  /** Purity of an alkali: one tub has one. */
  | "purity"
  /** What an additive is made of: one jar has one composition. */
  | "composition"
  /** What a scale shows, rounded to its step. */
  | "weighing"
  /** What stays behind of a batch that is poured over in one go. */
  | "residue";

/**
 * A number inside a computation: a whole number of 1e-26 up to 1.7e12, or *poisoned* once an operation overflowed or
 * divided by zero. Poison spreads like a NaN and is met once, where the result becomes a quantity, so a formula reads as
 * a formula.
 *
 * Sums are exact. A product or a quotient is rounded once, half to even, at the 26th decimal. A plan publishes twelve
 * decimals of figures below 1e6, so at least six guard digits lie between that rounding and anything a maker sees, after
 * all that a chain of operations spoils; an oracle in rational arithmetic holds the published figures to it.
 */
export type Exact = string;

/** How sure the superfat of a jug is, and so that of every layer poured from it. */
export interface JugCertainty {
  /** What it is called. */
  name: string;
  /** Its layers, in pour order. */
  layers: number[];
  /** How sure. */
  figures: Figures;
}

/** How sure a superfat is. */
export interface Figures {
  /** As the plan has it. */
  superfat: Share;
  /** Whether it can be, or must be, lye-heavy. */
  verdict: CertaintyVerdict;
  /** What it cannot leave while the inputs are within their ranges. */
  guaranteed: Guaranteed;
  /** With every input in the middle of its range. */
  expected: Share;
  /** Standard uncertainty (JCGM 100), an absolute share: 0.01 is one point of superfat. */
  uncertainty: Share;
  /** Ends of the 95 % coverage interval, within the guaranteed one. */
  covered: [Share, Share];
  /** What each input contributes, the largest first. */
  budget: Contribution[];
}

/** Whether a superfat can be negative, that is, alkali can be left over. */
export type CertaintyVerdict =
  /** Fat is left over, whatever the inputs are. */
  | "fat-left"
  /** Alkali may be left over. */
  | "may-be-lye-heavy"
  /** Alkali is left over, whatever the inputs are. */
  | "lye-heavy";

/** The guaranteed interval. Its ends are rounded outwards, at the twelfth decimal. */
export interface Guaranteed {
  /**
   * Lower end; the least that a share can be when nothing bounds it, because a scale is so coarse that no fat at all
   * may be in the jug.
   */
  low: Share;
  /** Upper end. */
  high: Share;
  /** The input ends at which the lower end is reached: (input, end). */
  at_low: [number, End][];
  /** Those at which the upper end is reached. */
  at_high: [number, End][];
}

/** Which end of a range. */
export type End =
  /** The lower one. */
  | "low"
  /** The upper one. */
  | "high";

/** What an input contributes to a standard uncertainty. */
export interface Contribution {
  /** Index of the input. */
  input: number;
  /** Its standard uncertainty times the sensitivity of the superfat to it. */
  uncertainty: Share;
  /** Its share of the variance. */
  of_variance: Share;
}

/** What to change so that no layer can be lye-heavy while all inputs are within their ranges. */
export interface Advice {
  /** The smallest superfat to aim for with the workshop's scales; nothing when none up to 50 % is enough. */
  superfat: SmallestSuperfat | null;
  /**
   * The coarsest scale with the superfat as it is; nothing when no scale is fine enough, because the other ranges
   * alone use the superfat up.
   */
  scale: CoarsestScale | null;
}

/** A superfat to aim for. */
export interface SmallestSuperfat {
  /** As a share of the demand left unmet, in tenths of a per cent. */
  superfat: Share;
  /** Name of the jug that needs it: with less, it could be lye-heavy first. */
  binding: string;
  /** The lowest that its superfat can then be. */
  low: Share;
}

/** A scale to weigh on. */
export interface CoarsestScale {
  /** Its step, of 1, 2 or 5 times a power of ten, if everything is weighed on it. */
  step: Mass;
  /** Name of the jug that comes nearest to being lye-heavy with it. */
  binding: string;
  /** The lowest that its superfat can then be. */
  low: Share;
}

/** A figure of the plan that an event changed. */
export interface Change {
  /** Where: the pot, the lye, a jug or a layer, by name; `batch` for all of it. */
  place: string;
  /** What: an item, or a figure in words. */
  what: string;
  /** Before, with its unit. */
  before: string;
  /** Now. */
  now: string;
  /** The difference, with its sign. */
  by: string;
}

/** What is said about a place. */
export interface Correction {
  /** The jug by name; `batch` for all of it. */
  place: string;
  /** Superfat as planned. */
  aimed: Share;
  /** Superfat as it is. */
  superfat: Share;
  /** The lowest and the highest that it can be (see `crate::certainty`). */
  guaranteed: [Share, Share];
  /** What to do. */
  remedy: Outcome;
  /** What is safe with the soap as it is, or once the additions are in; empty when there is nothing to look out for. */
  safe: Safe[];
  /** What else to know, a sentence each. */
  notes: string[];
}

/** What can be done. */
export type Outcome =
  /** It is within the tolerances. */
  | "nothing"
  /**
   * Adding this brings it back. What is said of it is read off the plan of a batch in which each addition was recorded
   * as `Event::Added`, in this order.
   */
  | { "additions": { additions: Addition[]; superfat: Share; shares: boolean; } }
  /** Nothing that can be added brings it back, and why not. */
  | { "cannot": { reasons: string[]; } };

/** Something to add. */
export interface Addition {
  /**
   * Id of the fat, `naoh` or `koh` or `water`; the place in the recipe where an id stands twice. Alkali is dissolved in
   * the water first.
   */
  item: string;
  /** Its name. */
  name: string;
  /** The jug that it goes into; `None` for the pot of fats, or for water and alkali the vessel of the lye. */
  vessel: string | null;
  /** How much. */
  mass: Mass;
}

/** What is safe. */
export type Safe =
  /** Keep it apart, marked, while it cures. */
  | "hold"
  /** Have its free alkali determined before anyone uses it. */
  | "test"
  /** Throw it away. */
  | "discard";

/** Something in the record that deserves a second look. */
export interface Finding {
  /** Stable code. */
  code: string;
  /** What is found. */
  message: string;
  /** What to do. */
  advice: string;
}

/** The copy of a label. */
export interface Label {
  /** What the maker calls the bars. */
  name: string;
  /** What stands on it: what it is, and the words. */
  items: [string, string][];
  /** The list of ingredients. */
  ingredients: IngredientList;
  /** What is still missing, with the point of the article that asks for it. */
  missing: string[];
  /** What the maker must know and does not print. */
  notes: string[];
  /** Rules that it follows. */
  rules: Rule[];
}

/** A list of ingredients. */
export interface IngredientList {
  /** Where it is for. */
  market: Market;
  /** In which names. */
  style: Style;
  /** The layer it is of; nothing for the whole bar. */
  layer: string | null;
  /** The names in their order. */
  entries: Entry[];
  /** The rules it follows. */
  rules: Rule[];
  /**
   * What the list prints and somebody still has to look at: `label.soap`, a soap that no inventory names, under the name
   * of its fat; `label.purpose`, a material in the recipe as a colour that is none of annex IV; `label.statement`, a
   * material that needs a statement of its supplier.
   */
  cautions?: Problem[];
}

/** Where goods are placed on the market. */
export type Market =
  /** The European Union, and Northern Ireland, where its rules on cosmetics hold. */
  | "european-union"
  /** England, Scotland and Wales. */
  | "great-britain"
  /** The United States. */
  | "united-states";

/** In which names a composition is told. */
export type Style =
  /** What was weighed in: oils, hydroxide, water. */
  | "as-charged"
  /** What became of it: soaps, glycerin, water. */
  | "as-formed";

/** One name of a list. */
export interface Entry {
  /** As it is printed. */
  name: string;
  /** Its share when it is added, or, as formed, of the cured bar. */
  share: Share;
  /** In which part of the list it stands. */
  rank: Rank;
  /** Whether it is a fragrance allergen, which is part of the scent and named beside it. */
  allergen: boolean;
  /** Ids of the materials behind it. */
  materials: string[];
}

/** In which part of the list a name stands. */
export type Rank =
  /** One per cent or more: by weight. */
  | "by-weight"
  /** Below one per cent: after those, in any order; here by weight too. */
  | "under-one"
  /** A colour: after all others, in any order; here by number. */
  | "colour";

/** A rule of law. */
export interface Rule {
  /** What it says. */
  says: string;
  /** Where it stands. */
  cite: string;
  /** Whether it was read there, or in a quotation or copy of it; otherwise it is from memory. */
  seen: boolean;
}

/** The verdict on a plan. */
export interface Verdict {
  /** Where the batch stands. */
  standing: Standing;
  /** The same as a sentence. */
  says: string;
  /** Ingredient by ingredient, in the order of the assessment. */
  lines: Line[];
  /** Why it is not covered; empty when it is. */
  reasons: Reason[];
  /** Conditions in words, which no computation can check. */
  to_see_to: string[];
}

/** Where a batch stands. */
export type Standing =
  /** For the household: no assessment is needed, and none of it may be sold or given away in the course of a business. */
  | "household"
  /** For sale, and no assessment was handed over: it must not be sold. */
  | "unassessed"
  /** Inside the assessment. */
  | "covered"
  /** Outside it. */
  | "not-covered";

/** One ingredient of an assessment and how the plan stands to it. */
export interface Line {
  /** What it is called. */
  name: string;
  /** Its share in the plan. */
  share: Share;
  /** What is covered. */
  range: Range;
  /** How much it could rise before it leaves the range; negative when it is above. */
  room_above: Share;
  /** How much it could fall before it leaves the range; negative when it is below. */
  room_below: Share;
  /** JSON Pointer into the assessment. */
  pointer: string;
}

/** A closed range of a share. */
export interface Range {
  /** Least. */
  min: Share;
  /** Most. */
  max: Share;
}

/** Why a plan is not covered. */
export interface Reason {
  /** What is out, by name. */
  what: string;
  /** What is found. */
  figure: string;
  /** What is covered. */
  limit: string;
  /** How far outside it lies. */
  distance: Share;
  /** What would bring it back. */
  change: string;
  /** JSON Pointer into the assessment; empty when it says nothing of it. */
  assessed: string;
  /** JSON Pointers into the recipe. */
  pointers: string[];
}

/** The composition of the bars, twice. */
export interface Dossier {
  /** Which document this is: `dossier/1`. */
  lamella: string;
  /** What the maker calls the batch. */
  name: string;
  /** Layers that are on hold. */
  holds?: Hold[];
  /** At filling, under the names as charged. */
  at_filling: DossierLine[];
  /** Cured, under the names as formed. */
  cured: DossierLine[];
  /** What comes along with the materials (annex I, A.4). */
  impurities: Note[];
  /** What bears on keeping (annex I, A.2 and A.3). */
  stability: Note[];
}

/** One ingredient. */
export interface DossierLine {
  /** Label name (INCI); nothing where none is known. */
  inci: string | null;
  /** The materials behind it, in English. */
  name: string;
  /** CAS number, where known. */
  cas: string | null;
  /** What it is there for. */
  function: string;
  /** What it is. */
  role: Role;
  /** Its share of the bar. */
  share: Span;
  /** JSON Pointers to the lines of the recipe. */
  pointers: string[];
}

/** What a line of a composition is. */
export type Role =
  /** Fat: charged, or what the alkali left of it. */
  | "fat"
  /** Soap. */
  | "soap"
  /** Alkali. */
  | "alkali"
  /** Water. */
  | "water"
  /** Glycerol, set free or added. */
  | "glycerin"
  /** An additive. */
  | "additive"
  /** A colour. */
  | "colour"
  /** A scent. */
  | "scent"
  /** What came along with a material and is no ingredient: carbonate of the alkali. */
  | "impurity";

/** A share of the bar and between what it lies. */
export interface Span {
  /** Least: in the layer that has least of it, with half a step less of it on the scale. */
  min: Share;
  /** In the whole bar. These sum to exactly 100 %. */
  typical: Share;
  /** Most: in the layer that has most of it, with half a step more. */
  max: Share;
}

/** Something said of a material or of the bars. */
export interface Note {
  /** Of what. */
  of: string;
  /** What. */
  says: string;
}

/** What may have caused it. */
export interface Cause {
  /** Stable code. */
  code: string;
  /** The cause in words. */
  what: string;
  /** Where it stands. */
  standing: AfterStanding;
  /** What speaks for it. */
  speaks_for: AfterReason[];
  /** What speaks against it. */
  speaks_against: AfterReason[];
  /** What to look at to tell it from the others. */
  tell: string;
  /** What to do next time, and with this batch where that matters. */
  advice: string;
  /** What the connection rests on. */
  basis: BasisKind;
  /** The same in words. */
  source: string;
}

/** Where a cause stands. */
export type AfterStanding =
  /** Figures of the recipe speak for it and none against. */
  | "likely"
  /** Some speak for and some against it, or none at all. */
  | "possible"
  /** Figures speak against it and none for it. */
  | "unlikely";

/** A figure of the recipe, and what it says about a cause. */
export interface AfterReason {
  /** The figure, or the names of materials. */
  figure: string;
  /** What it says. */
  says: string;
}

/** What the maker sees. */
export type Observation =
  /** The colour is dull or brown, all through. */
  | "dull-throughout"
  /** It is so only at the border, and the middle is as it should be. */
  | "dull-border"
  /** The top has cracked. */
  | "crack-on-top"
  /** A white, dusty bloom on the surface. */
  | "ash"
  /** Drops or a film of liquid on the bar. */
  | "weeping"
  /** The middle is soft, or darker and softer than the rim. */
  | "soft-centre"
  /** It crumbles or breaks when it is cut. */
  | "crumbling"
  /** Dark or orange spots that grow with time. */
  | "dark-spots"
  /** Specks that were there at the cut. */
  | "specks";

/** All that is forecast of a plan. */
export interface HeatForecast {
  /** Its lye. */
  lye: LyeForecast;
  /** Temperature of the batter of each jug as it is mixed, in the order of the plan. */
  batter: Temperature[];
  /** About where its fats begin to set, where their profiles are known. */
  fats_set_at: Temperature | null;
  /** Its block. */
  block: Forecast;
  /** What deserves a second look. */
  cautions: Caution[];
}

/** What the lye does. */
export interface LyeForecast {
  /** Temperature when the alkali is dissolved, all having been as warm as the air, nothing lost. */
  dissolved: Temperature;
  /** The same with all the water as ice at 0 °C. */
  dissolved_in_ice: Temperature;
  /** Temperature at which it boils. */
  boils_at: Temperature;
  /** How long it takes to fall to the recipe's temperature in air; nothing when it never does, or stands below. */
  cools_in_air: When | null;
  /** The same with its jug in a bath of water as warm as the air. */
  cools_in_bath: When | null;
}

/** A time that may lie past the end of the forecast; such are the greatest. */
export type When =
  /** So long after the first pour, or after the pour of the layer it is about. */
  | { "at": Duration }
  /** Not within the forecast. */
  | "later";

/** What a block does. */
export interface Forecast {
  /** The highest temperature anywhere. */
  peak: Interval<Temperature>;
  /** When that is, after the first pour. */
  peak_at: Interval<When>;
  /** The layer that it is in, in the likely truth. */
  peak_layer: string;
  /** How high above the bottom it is, in the likely truth. */
  peak_height: Length;
  /** How much of the block passes its gel temperature. */
  gelled: Interval<Share>;
  /** When the first of it does. */
  gels: Interval<When>;
  /** In how many of the tried truths part of the block gels and part does not, so that a ring shows in the cut. */
  ring: Share;
  /** By how much the hottest place passes the upper edge, at most, K as a difference of °C. */
  apart: Interval<Temperature>;
  /** How much of the alkali has reacted at the end of the forecast. */
  reacted: Interval<Share>;
  /** When it can be cut: nine tenths have reacted everywhere, and the hottest place has come down to 35 °C. */
  cut: Interval<When>;
  /**
   * Times after the first pour at which the layers are looked at, in whole minutes: even steps to the end of the
   * forecast, every pour, and the hottest moment of the likely truth.
   */
  times: Duration[];
  /** Which of these times is the hottest moment of the likely truth; the first is 0. */
  hottest: number;
  /** The layers. */
  layers: LayerForecast[];
}

/** A figure as far as it is known. */
export interface Interval<T> {
  /** The least that any of the tried truths gives. */
  low: T;
  /** What the likely truth gives. */
  likely: T;
  /** The greatest. */
  high: T;
}

/** What a layer does. */
export interface LayerForecast {
  /** What the maker calls it. */
  name: string;
  /** Temperature of its batter when it is poured. */
  poured_at: Temperature;
  /** Temperature at which it gels. */
  gels_at: Interval<Temperature>;
  /** How much of it passes that temperature. */
  gelled: Interval<Share>;
  /** How long after its pour it carries the next one, from its conversion. */
  carries: Interval<When>;
  /** Its mean temperature at each of the forecast's times; nothing before its pour. */
  warmth: Interval<(Temperature | null)[]>;
}

/** A material of the library, as a list shows it. */
export interface Listed {
  /** What it is. */
  kind: ListedKind;
  /** Its id, by which a recipe names it. */
  id: string;
  /** Its name in English. */
  name: string;
  /** Its name on a label (INCI), where one is known; of a colour its index. A maker may search by it. */
  inci: string | null;
  /** How it looks, of a colour. */
  swatch: string | null;
}

/** What a listed material is. */
export type ListedKind =
  /** A fat. */
  | "fat"
  /** An additive that does not pour. */
  | "additive"
  /** An additive that pours, and can stand in for water. */
  | "liquid"
  /** A colour. */
  | "colour"
  /** A scent. */
  | "scent";

/** A fat: any oil, butter, tallow, wax or free fatty acid that alkali can saponify. */
export interface Fat {
  /** Stable id, `olive-oil`. */
  id: string;
  /** Name in English. */
  name: string;
  /** Plant or animal it is from. */
  source: string;
  /** How it holds its acids. */
  kind: FatKind;
  /** Saponification value, mg KOH/g (ISO 3657). */
  saponification_value: Ranged<SaponificationValue>;
  /** Iodine value, g I2/100 g (ISO 3961); nothing where none is known. */
  iodine_value: Ranged<IodineValue> | null;
  /** Largest share of unsaponifiable matter, where a limit is published. */
  unsaponifiable_max: Share | null;
  /** Share of unsaponifiable matter that a certificate states; the library has none. */
  unsaponifiable_stated: Share | null;
  /** Density, where one is known. */
  density: FatDensity | null;
  /** Fatty acids by mass share; empty for waxes whose acids are not usefully listed. */
  profile: AcidShare[];
  /** Label names. */
  inci: Inci;
  /** Where the numbers come from. */
  bases: Basis[];
  /** What a maker or a checker should know about the row. */
  note: string;
}

/** How a fat holds its fatty acids, which decides what else the alkali sets free. */
export type FatKind =
  /** Three acids on glycerol: alkali makes soap and glycerol. */
  | "triglyceride"
  /** The acid itself: alkali makes soap and water. */
  | "free-fatty-acid"
  /** An acid on a fatty alcohol or sterol: alkali makes soap and sets the alcohol free. */
  | "wax-ester";

/** A figure that has a published range and a value to reckon with. */
export interface Ranged<T> {
  /** Lower end of the range, where one is known. */
  min: T | null;
  /** The value to reckon with. */
  typical: T;
  /** Upper end of the range, where one is known. */
  max: T | null;
}

/** Density of a fat, and at which temperature. */
export interface FatDensity {
  /** Grams per millilitre (a relative density to water at 20 °C, times 0.9982, or as stated). */
  typical: Density;
  /** The temperature it holds at. */
  at: Temperature;
}

/** A fatty acid's mass share of all fatty acids of a fat. */
export interface AcidShare {
  /** Which acid. */
  acid: FattyAcid;
  /** Its mass share of the fatty acids. */
  share: Ranged<Share>;
}

/** Names on a label (INCI) of a fat and of its soaps. */
export interface Inci {
  /** The fat as charged. */
  fat: string | null;
  /** Its sodium soap. */
  sodium_soap: string | null;
  /** Its potassium soap. */
  potassium_soap: string | null;
}

/** An additive: anything but fat, alkali, colour and scent that goes into a layer, the pot or the lye. */
export interface Additive {
  /** Stable id, `pumpkin-puree`. */
  id: string;
  /** Name in English. */
  name: string;
  /** In what shape it comes. */
  form: Form;
  /** How it behaves in lye, and so when it goes in. */
  in_lye: InLye;
  /** What it is made of. */
  composition: Composition;
  /** The fat whose profile its own fat has, by id; nothing when it has none or none fits. */
  fat_like: string | null;
  /** Saponification value of its own fat: that of the fat it is like, or stated where none fits. */
  fat_saponification_value: SaponificationValue | null;
  /** The acid in it, by id of the acid table; nothing when it has none. */
  acid: string | null;
  /** Fresh, wet plant or animal matter, which spoils in a bar when dosed high or put on top undried. */
  fresh: boolean;
  /** An allergen that food law names (nut, sesame, milk, egg, gluten ...), for the label. */
  allergen: string | null;
  /** Label name (INCI), where known. */
  inci: string | null;
  /** Where the numbers come from. */
  bases: Basis[];
  /** What a maker should know. */
  note: string;
}

/** In what shape an additive comes. */
export type Form =
  /** Pours, and can replace water: milk, juice, tea. */
  | "liquid"
  /** Spoons: puree, butter, honey. */
  | "paste"
  /** Dry and dissolves in water: sugar, salt. */
  | "soluble"
  /** Dry and does not dissolve: clay, ground seed. */
  | "insoluble";

/**
 * How an additive behaves in lye, and so when it goes in. Each row of the library names one with its basis; one that
 * nobody names follows from the composition, on the side of caution.
 */
export type InLye =
  /** Goes into the water before the alkali, and dissolves there: tea, vinegar, sugar, citric acid. */
  | "water"
  /** As `Water`; its minerals are salt, which strong lye does not keep dissolved. */
  | "salt"
  /** Scorches in hot lye: frozen to slush with the water, before the alkali. Milk, cream, juice with sugar. */
  | "frozen"
  /** Foams over: boiled flat, then as `Frozen`. Beer, wine. */
  | "boiled"
  /** Dissolves in hot lye: silk. */
  | "hot"
  /** Goes into lye that is clear and has cooled: sodium lactate. */
  | "cooled"
  /** Does not belong in lye, but in the fats or in the batter at light trace: puree, honey, nut butter, flour, clay. */
  | "fats";

/** What a hundred grams are made of, as shares of the whole. What the named parts leave over is `other`. */
export interface Composition {
  /** Free water. */
  water: Share;
  /** Fat that alkali can reach. */
  fat: Share;
  /** Sugars. */
  sugars: Share;
  /** Protein. */
  protein: Share;
  /** Fibre. */
  fibre: Share;
  /** Minerals: ash, salts, clay. */
  minerals: Share;
  /** Ethanol. */
  alcohol: Share;
  /** Glycerol and sugar alcohols, which neither brown nor take up alkali. */
  polyols: Share;
  /** Acid that takes up alkali; which one, the additive says. */
  acid: Share;
}

/** A colourant, used in small doses and reckoned as inert. */
export interface Colourant {
  /** Stable id, `ultramarine-blue`. */
  id: string;
  /** Name in English. */
  name: string;
  /** What it is. */
  kind: ColourantKind;
  /** Colour Index number, `77007`, where it has one. */
  colour_index: string | null;
  /** How it looks in a bar, `#rrggbb`, for drawing only. */
  swatch: string;
  /** Largest usual dose as a share of fat. */
  usual_max: Share;
  /** Whether it keeps its hue at the pH of soap. */
  alkali_stable: boolean;
  /** Where the numbers come from. */
  bases: Basis[];
  /** What a maker should know. */
  note: string;
}

/** What a colour is, which says how it behaves in alkali. */
export type ColourantKind =
  /** An inorganic pigment: oxide, ultramarine, chromium green, titanium dioxide. */
  | "pigment"
  /** Coated mica. */
  | "mica"
  /** A coloured clay. */
  | "clay"
  /** Carbon. */
  | "carbon"
  /** A plant colour. */
  | "plant";

/** A scent, reckoned as inert and volatile. */
export interface Fragrance {
  /** Stable id, `lavender`. */
  id: string;
  /** Name in English. */
  name: string;
  /** What it is. */
  kind: FragranceKind;
  /** Label name (INCI), where known. */
  inci: string | null;
  /** What it does to the batter. */
  pace: Pace;
  /** Largest usual dose as a share of fat; the supplier's certificate decides. */
  usual_max: Share;
  /** What the supplier's certificate states; the library has none. */
  certificate: ScentCertificate | null;
  /** Where the numbers come from. */
  bases: Basis[];
  /** What a maker should know. */
  note: string;
}

/** What a scent is. */
export type FragranceKind =
  /** Distilled or pressed from plants. */
  | "essential-oil"
  /** A compounded fragrance. */
  | "compound";

/** How a scent changes the pace of the batter. */
export type Pace =
  /** Leaves it as it is. */
  | "steady"
  /** Thickens it sooner. */
  | "faster"
  /** May seize it within a minute. */
  | "seizing"
  /** Not known. */
  | "unknown";

/** What a supplier certifies of a scent: how much a finished bar may hold, and what is in it. */
export interface ScentCertificate {
  /** The supplier's name or number for it; may be empty. */
  reference: string;
  /** Number of the amendment of the fragrance industry's standards that it was drawn up to. */
  amendment: number | null;
  /** Largest share of the finished bar, by mass, in the category of bar soap. */
  limit: Share | null;
  /** Allergens by id with their share of the scent, in the order of the document. */
  allergens: [string, Share][];
  /** Vanillin, which browns soap. */
  vanillin: Share | null;
  /** Flash point. */
  flash_point: Temperature | null;
}

/** An alkali as it is sold. */
export interface AlkaliData {
  /** Which alkali. */
  alkali: Alkali;
  /** Share of it that is the hydroxide; the typical one is taken when a recipe says nothing. */
  purity: Ranged<Share>;
  /** Largest share of carbonate that a food-grade alkali may hold. Carbonate does not saponify fat. */
  carbonate_max: Share;
  /** Where the numbers come from. */
  bases: Basis[];
  /** What a maker should know. */
  note: string;
}

/** An alkali that saponifies. */
export type Alkali =
  /** NaOH, for hard soap. */
  | "sodium-hydroxide"
  /** KOH, for soft soap. */
  | "potassium-hydroxide";

/** A fragrance substance, or a whole oil, that a label must name above a threshold. */
export interface Allergen {
  /** Stable id, `linalool`. */
  id: string;
  /** Name on the label. */
  name: string;
  /** Entry of Regulation (EC) No 1223/2009: of annex III; of annex II where it is prohibited. */
  entry: string;
  /** CAS numbers, of all that is summed under it. */
  cas: string[];
  /** Substances, isomers and oils that are summed under it, beside what has its own name. */
  members: string[];
  /** Names and ids that it once had in this library. */
  formerly: string[];
  /** Which list it is on. */
  list: AllergenList;
  /** Whether it is no longer allowed at all. */
  prohibited: boolean;
  /** Scents of the library that are this oil, and so count whole. */
  scents: string[];
  /** Where this comes from. */
  bases: Basis[];
}

/** Which list a fragrance allergen is on. */
export type AllergenList =
  /** The first 26: Regulation (EC) No 1223/2009, annex III, entries 45 and 67-92. */
  | "original"
  /** Added by Regulation (EU) 2023/1545. */
  | "added-in2023";
