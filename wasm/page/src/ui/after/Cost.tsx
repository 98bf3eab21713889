// What the batch costs.
import { useMemo } from 'preact/hooks';
import { costPage } from '../../lamella';
import { kept, papers, setPrice, type Look } from '../../store';
import { materialsOf } from '../../weighed-in';
import { Quantity, Text } from '../Field';
import { source } from './batch';
import { Actions, change, Made, made } from './paper';

export function Cost({ look }: { look: Look }) {
  const { recipe } = look;
  const { prices } = papers();
  const page = useMemo(() => made(() => costPage(source(look), prices)), [recipe, kept().bench, prices]);
  const list = materialsOf(look.plan);
  return (
    <>
      <div class="panel no-print">
        <div class="grid">
          <Text label="Currency" value={prices.currency} onValue={(value) => change(['prices', 'currency'], value.toUpperCase().slice(0, 3))} />
          <Quantity label="Pay of an hour" kind="number" optional value={prices.labour?.rate ?? ''} onValue={(value) => change(['prices', 'labour'], value === undefined ? undefined : { time: '3 h', ...prices.labour, rate: value })} />
          {prices.labour && (
            <Quantity label="Hours for the batch" kind="number" value={prices.labour.time.replace(/ h$/, '')} onValue={(value) => change(['prices', 'labour', 'time'], `${value} h`)} />
          )}
          <Quantity label="Bars" kind="number" optional value={prices.bars ? String(prices.bars) : ''} onValue={(value) => change(['prices', 'bars'], value && /^\d+$/.test(value) ? Number(value) : undefined)} />
          <Quantity label="Margin, of the price" kind="share" optional value={prices.margin?.of_price ?? ''} onValue={(value) => change(['prices', 'margin'], value === undefined ? undefined : { of_price: value })} />
          <Quantity label="Tax" kind="share" optional value={prices.tax ?? ''} onValue={(value) => change(['prices', 'tax'], value)} />
        </div>
        <h3>What a pack costs, and what is in it</h3>
        <p class="priced faint" aria-hidden="true">
          <span />
          <span>costs</span>
          <span>holds</span>
        </p>
        <ul class="rows">
          {list.map((item) => {
            const one = prices.materials.find((known) => known.material === item.id);
            return (
              <li key={item.id} class="priced">
                <span>{item.name}</span>
                <Quantity quiet label={`Price of a pack of ${item.name}`} kind="number" optional value={one?.price ?? ''} onValue={(value) => setPrice(item.id, 'price', value)} />
                <Quantity quiet label={`A pack of ${item.name} holds`} kind="mass" value={one?.pack ?? '1 kg'} onValue={(value) => setPrice(item.id, 'pack', value)} />
              </li>
            );
          })}
        </ul>
      </div>
      {prices.materials.length === 0 ? (
        <p class="faint">Enter what a pack of anything costs: what the batch and a bar cost follows.</p>
      ) : (
        <>
          <Actions />
          <Made page={page} />
        </>
      )}
    </>
  );
}
