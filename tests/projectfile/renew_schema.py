"""Writes the published JSON Schema anew: python -m tests.projectfile.renew_schema"""

import json
from pathlib import Path

from composer.projectfile.schema import json_schema

if __name__ == "__main__":
    target = Path(__file__).resolve().parents[2] / "resources" / "schema" / "project-v1.json"
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text(json.dumps(json_schema(), indent=2, ensure_ascii=False) + "\n", encoding="utf-8")
