// That a line goes by its certificate.
import { standing, type Line } from '../../certificates';

export function By({ line }: { line: Line }) {
  const now = standing(line);
  if (now === 'none') return null;
  return <span class="by">{now === 'reckoned' ? 'by certificate' : 'certificate not finished'}</span>;
}
