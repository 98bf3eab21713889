// The fatty acids that certificates state, by the name a supplier gives them.
const NAMES: Record<string, string> = {
  'C6:0': 'caproic',
  'C8:0': 'caprylic',
  'C10:0': 'capric',
  'C12:0': 'lauric',
  'C14:0': 'myristic',
  'C16:0': 'palmitic',
  'C16:1': 'palmitoleic',
  'C17:0': 'margaric',
  'C17:1': 'heptadecenoic',
  'C18:0': 'stearic',
  'C18:1': 'oleic',
  'C18:1-OH': 'ricinoleic',
  'C18:2': 'linoleic',
  'C18:3': 'alpha-linolenic',
  'C18:3-gamma': 'gamma-linolenic',
  'C20:0': 'arachidic',
  'C20:1': 'gondoic',
  'C22:0': 'behenic',
  'C22:1': 'erucic',
  'C24:0': 'lignoceric',
  'C24:1': 'nervonic',
};

export const ACIDS = Object.keys(NAMES);
export const acidName = (acid: string): string => (NAMES[acid] ? `${NAMES[acid]}, ${acid}` : acid);
