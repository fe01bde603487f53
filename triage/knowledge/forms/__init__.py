"""The shape of knowledge files, as pydantic forms; what their words mean is resolved by the readers."""
