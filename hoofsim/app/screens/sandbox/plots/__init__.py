"""The plots that the sandbox offers beside its curve: the last half minute, the claim, the stride, the wall."""
