//! Finite elements for squeezed rubber sections between rigid walls.
