// Units, decimal sign, light and dark.
import { put, type State } from '../store';
import { Switch } from './Field';
import { Over } from './Parts';

export function Settings({ state, onClose }: { state: State; onClose: () => void }) {
  const { units } = state;
  return (
    <Over title="Units and light" onClose={onClose}>
      <Switch
        label="Weights"
        value={units.mass}
        options={[['g', 'grams'], ['oz', 'ounces'], ['lb', 'pounds']]}
        onValue={(mass) => put({ units: { ...units, mass } })}
      />
      <Switch
        label="Lengths"
        value={units.length}
        options={[['mm', 'millimetres'], ['in', 'inches']]}
        onValue={(length) => put({ units: { ...units, length } })}
      />
      <Switch
        label="Temperatures"
        value={units.temperature}
        options={[['°C', '°C'], ['°F', '°F']]}
        onValue={(temperature) => put({ units: { ...units, temperature } })}
      />
      <Switch
        label="Decimals"
        value={units.comma || 'auto'}
        options={[['auto', 'as the browser'], [',', '1,5'], ['.', '1.5']]}
        onValue={(comma) => put({ units: { ...units, comma: comma === 'auto' ? '' : (comma as ',' | '.') } })}
      />
      <Switch
        label="Light"
        value={state.theme || 'auto'}
        options={[['auto', 'as the device'], ['light', 'light'], ['dark', 'dark']]}
        onValue={(theme) => put({ theme: theme === 'auto' ? '' : (theme as 'light' | 'dark') })}
      />
      <p class="faint">
        A unit may be typed into any field: “8 oz”, “3 in”, “95 °F”. Scales keep the steps that the workshop gives them.
      </p>
    </Over>
  );
}
