interface MapButtonsProps {
  zoomBy(levels: number): void;
  showAll(): void;
}

/** Moving the sheet by button; the same is done by wheel, drag and keys. */
export function MapButtons(props: MapButtonsProps) {
  return (
    <div class="rain-map-buttons">
      <button type="button" onClick={() => props.showAll()}>
        Whole portfolio
      </button>
      <button type="button" aria-label="Zoom in" title="Zoom in" onClick={() => props.zoomBy(1)}>
        +
      </button>
      <button type="button" aria-label="Zoom out" title="Zoom out" onClick={() => props.zoomBy(-1)}>
        −
      </button>
    </div>
  );
}
