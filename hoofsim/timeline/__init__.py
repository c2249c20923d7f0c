"""Growth, wear and trim: which values the foot's controls have on day t."""
