"""Lines to blocks of items: runs of counts, what each run is, which words belong to which count."""
