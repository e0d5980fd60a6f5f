"""O-rings by size (ISO 3601-1, AS568, JIS B 2401) and by rubber (ISO 1629)."""
