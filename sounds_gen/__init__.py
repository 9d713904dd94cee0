"""Sounds made with numpy: tones, fades, levels, mixing and PCM. It knows nothing of training."""
