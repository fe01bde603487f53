"""Pictures, as SVG from templates."""
