"""Sets soapbench up on a machine that has nothing but Python. Standard library only."""
