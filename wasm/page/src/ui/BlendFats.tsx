// The fats that a blend may be made of: those of the recipe, and any other of the library.
import { set, without } from '../change';
import { named, optionsOf } from '../materials';
import { papers, setPapers, setPrice } from '../store';
import { Quantity, Search } from './Field';

const nameOf = (id: string) => named(['fat'], id)?.name ?? id;

interface BlendFatsProps {
  /** The fats of the recipe, by their ids. */
  own: readonly string[];
  /** Those added to choose from. */
  more: readonly string[];
  onMore: (more: string[]) => void;
  /** Told when a price or a stock is another one. */
  onChange: () => void;
}

export function BlendFats({ own, more, onMore, onChange }: BlendFatsProps) {
  const all = [...own, ...more];
  const options = optionsOf(['fat']).filter((option) => !all.includes(fatOf(option.key)));
  return (
    <>
      <h3>Fats to choose from</h3>
      <p class="faint">Those of the recipe: {own.map(nameOf).join(', ')}.</p>
      {more.length > 0 && (
        <ul class="rows">
          {more.map((id, index) => (
            <li key={id} class="candidate">
              <span>
                {nameOf(id)}
                <span class="beside">{named(['fat'], id)?.inci}</span>
              </span>
              <button
                type="button"
                class="drop"
                aria-label={`Do not choose from ${nameOf(id)}`}
                onClick={() => onMore(without(more, index))}
              >
                ×
              </button>
            </li>
          ))}
        </ul>
      )}
      <Search label="Choose from another fat as well" options={options} onPick={(picked) => onMore([...more, fatOf(picked.key)])} />
      <details class="more">
        <summary>Prices and stock</summary>
        <ul class="rows">
          {all.map((id) => (
            <PriceAndStock key={id} id={id} onChange={onChange} />
          ))}
        </ul>
      </details>
    </>
  );
}

/** The id of a fat in a list of the library. */
const fatOf = (key: string) => key.slice('fat '.length);

function PriceAndStock({ id, onChange }: { id: string; onChange: () => void }) {
  const { prices, stock } = papers();
  const name = nameOf(id);
  const price = prices.materials.find((one) => one.material === id);
  return (
    <li class="bounds">
      <span>{name}</span>
      <Quantity
        quiet
        optional
        label={`Price of a pack of ${name}`}
        kind="number"
        placeholder={`${prices.currency}/${price?.pack ?? '1 kg'}`}
        value={price?.price ?? ''}
        onValue={(value) => {
          onChange();
          setPrice(id, 'price', value);
        }}
      />
      <Quantity
        quiet
        optional
        label={`Stock of ${name}`}
        kind="mass"
        placeholder="stock"
        value={stock[id] ?? ''}
        onValue={(value) => {
          onChange();
          setPapers((old) => set(old, ['stock', id], value));
        }}
      />
    </li>
  );
}
