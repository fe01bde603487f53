"""The screens: one ASGI app, served by a laptop or, the same, by the phone itself."""
