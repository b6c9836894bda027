// Hatches in pixels of the screen, so that they stay as they are at any zoom.

export function Hatches() {
  return (
    <svg class="hatches" aria-hidden="true">
      <defs>
        <pattern id="ply" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect class="ground" width="5" height="5" />
          <path class="stroke" d="M0 0V5" />
        </pattern>
        <pattern id="waste" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
          <path class="stroke red" d="M0 0V5" />
        </pattern>
        <pattern id="short" width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect class="ground" width="4" height="4" />
          <path class="stroke ink" d="M0 0V4" />
        </pattern>
        <pattern id="foam" width="7" height="7" patternUnits="userSpaceOnUse">
          <circle class="dot" cx="1.5" cy="1.5" r="0.9" />
          <circle class="dot" cx="5" cy="5" r="0.9" />
        </pattern>
        <pattern id="carpet" width="6" height="5" patternUnits="userSpaceOnUse">
          <rect class="pile" width="6" height="5" />
          <path class="stroke" d="M0.5 4.5L2 0.8M3.8 4.8L5.2 1.2" />
        </pattern>
      </defs>
    </svg>
  );
}
