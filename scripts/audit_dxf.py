"""Looks at exported drawings with an independent strict reader (python3-ezdxf). Usage: audit_dxf.py FILE..."""
import sys

import ezdxf

failed = 0
for name in sys.argv[1:]:
    drawing = ezdxf.readfile(name)
    audit = drawing.audit()
    for problem in [*audit.errors, *audit.fixes]:
        print(f"{name}: {problem.message}")
    if audit.errors or audit.fixes or drawing.units != 4:
        failed += 1
print(f"{len(sys.argv) - 1} drawings read, {failed} with faults")
sys.exit(1 if failed or len(sys.argv) == 1 else 0)
