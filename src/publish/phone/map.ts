// The map with tiles: the signs that the page carries, laid over the ground where they belong. North stays up, so that a fan
// points where it says.

interface GroundMap {
  addControl(control: object): void;
  zoomIn(): void;
  zoomOut(): void;
  fitBounds(bounds: readonly number[], options: object): void;
  on(event: string, hear: (event: { error?: { status?: number } }) => void): void;
}
interface GroundLibrary {
  readonly Map: new (options: object) => GroundMap;
  readonly Marker: new (
    options: object,
  ) => {
    setLngLat(at: readonly number[]): { addTo(map: GroundMap): void };
  };
  readonly ScaleControl: new (options: object) => object;
  setWorkerUrl(url: string): void;
}

const FIT = { padding: 60, maxZoom: 13, animate: false };

async function drawGround(place: HTMLElement): Promise<void> {
  const { library = '', worker = '', day = '', night = '', bounds = '', units = '' } = place.dataset;
  const lib = (await import(library)) as GroundLibrary;
  lib.setWorkerUrl(worker);
  const { look } = document.documentElement.dataset;
  const isNight =
    look === 'night' || (look === undefined && matchMedia('(prefers-color-scheme:dark)').matches);
  const box = JSON.parse(bounds) as number[];
  place.textContent = '';
  const map = new lib.Map({
    container: place,
    // Its worker has no page to begin an address at.
    style: JSON.parse((isNight ? night : day).replaceAll('"/board/', `"${location.origin}/board/`)),
    bounds: box,
    fitBoundsOptions: FIT,
    attributionControl: false,
    // North stays up.
    ...{ dragRotate: false, pitchWithRotate: false, touchPitch: false, rollEnabled: false, maxPitch: 0 },
    touchZoomRotate: true,
    renderWorldCopies: false,
  });
  (map as unknown as { touchZoomRotate: { disableRotation(): void } }).touchZoomRotate.disableRotation();
  (map as unknown as { keyboard: { disableRotation(): void } }).keyboard.disableRotation();
  map.addControl(new lib.ScaleControl({ unit: units }));
  map.on('error', () => showPart('map-holes'));
  for (const item of document.querySelectorAll<HTMLElement>('[data-pit]')) {
    const [lat = 0, lon = 0] = (item.dataset['pit'] ?? '').split(',').map(Number);
    const sign = item.querySelector('svg')?.parentElement?.cloneNode(true) as HTMLElement;
    new lib.Marker({ element: sign }).setLngLat([lon, lat]).addTo(map);
  }
  showPart('map-buttons');
  const press = (id: string, act: () => void): void =>
    document.getElementById(id)?.addEventListener('click', act);
  press('map-nearer', () => map.zoomIn());
  press('map-farther', () => map.zoomOut());
  press('map-all', () => map.fitBounds(box, FIT));
  map.on('idle', () => place.setAttribute('data-drawn', ''));
}

function showPart(id: string): void {
  const part = document.getElementById(id);
  if (part) part.hidden = false;
}

const groundPlace = document.getElementById('map');
if (groundPlace !== null)
  drawGround(groundPlace).catch(() => {
    groundPlace.textContent = groundPlace.dataset['fault'] ?? '';
  });
