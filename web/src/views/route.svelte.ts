/** Which view is shown. */
import { parseRoute, type View } from './address';

class Route {
  view = $state<View>('letter');
  name = $state('');

  read(): void {
    const { view, name } = parseRoute(location.hash);
    this.view = view;
    this.name = name;
  }
}

export const route = new Route();
